// What the app takes, as it is built and served: bytes, starts, drawing, entries,
// sending and fetching. The figures are kept in testdata/bench/web.md.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

import { afterAll, beforeAll, expect, test } from 'vitest';

import { Phone } from '../e2e/phone';
import { build, Server } from '../e2e/server';
import { beside, copying } from './copying';
import { kb, table, thousands, type Row } from './figures';
import { judged } from './judged';
import { killed } from './killed';
import { chart, opening } from './opening';

/** How much is measured: all of it with 1, to try it with a hundredth. */
const share = Number(process.env['FRESHET_BENCH_SHARE'] ?? 1);
const some = (whole: number, least: number): number => Math.max(least, Math.round(whole * share));
const readings = some(100_000, 2400);
const root = resolve(import.meta.dirname, '../../../..');
const folder = mkdtempSync(join(tmpdir(), 'freshet-bench-'));
const server = new Server();
const phones: Phone[] = [];
const rows: Row[] = [];
const load = loadavg()[1]!;
let fetched = 0;

beforeAll(async () => server.start(build(folder)));

afterAll(async () => {
  await Promise.all(phones.map((p) => p.remove()));
  await server.remove();
  rmSync(folder, { recursive: true, force: true });
  writeFileSync(join(root, 'testdata/bench/web.md'), page());
  console.log(`\n${table(rows)}\n`);
});

async function phone(): Promise<Phone> {
  const one = new Phone(server.origin);
  phones.push(one);
  await one.start();
  return one;
}

test('the first load', async () => void rows.push(...(await firstLoad(await phone()))));

test('Lighthouse', () => void rows.push(...judged(server.origin)));

test('a full notebook', async () => {
  const one = await phone();
  const { rows: copied, pulled } = await copying(one, server, readings, some(10_000, 200));
  fetched = pulled;
  rows.push(...(await opening(one, 11, `${thousands(3 * readings)} readings`)), ...(await chart(one, 11)), ...copied);
  await one.end();
});

test('another store', async () => void rows.push(...(await beside(await phone(), readings, fetched))));

test('killed tabs', async () => void rows.push(...(await killed(await phone(), some(200, 5)))));

function page(): string {
  const chromium = execFileSync(process.env['FRESHET_CHROMIUM'] ?? '/usr/bin/chromium', ['--version'], { encoding: 'utf8' }).split(' ').slice(0, 2).join(' ');
  return `# The phone app, measured\n\n\`make bench-web\`${share === 1 ? '' : ` with FRESHET_BENCH_SHARE=${share}`}, ${chromium} without a window, 390 x 844, ${cpus().length} cores of ${cpus()[0]?.model.trim()}. Slowed means four times by the browser's own CPU throttling. Other programs count: the machine's load was ${load.toFixed(1)} when it began. What axe finds, letters twice as large and 320 px are looked at by \`make screens\`, the whole job by keyboard alone by \`make test-web\`; both fail on any finding.\n\n${table(rows)}\n`;
}

/** Bytes over the network until the cover is drawn, and what comes after it. */
async function firstLoad(one: Phone): Promise<Row[]> {
  await one.open();
  await one.button('Draw my loop').waitFor();
  const files = await one.page.evaluate(() => [...performance.getEntriesByType('navigation'), ...performance.getEntriesByType('resource')].map((e) => ({ name: e.name, bytes: (e as PerformanceResourceTiming).encodedBodySize })));
  const sum = (of: RegExp): number => files.filter((f) => of.test(f.name)).reduce((all, f) => all + f.bytes, 0);
  const before = sum(/\/$|\/#|\.(js|css|woff2)$/);
  expect(before).toBeGreaterThan(0);
  await one.kept();
  const packed = async (file: RegExp): Promise<number> => {
    const names = await one.page.evaluate(async () => (await Promise.all((await caches.keys()).map(async (k) => (await (await caches.open(k)).keys()).map((r) => r.url)))).flat());
    const answer = await one.page.request.get(names.find((n) => file.test(n))!, { headers: { 'accept-encoding': 'gzip' } });
    return Number(answer.headers()['content-length']);
  };
  return [
    ['first load before WebAssembly, gzip', kb(before), 'under 250 kB'], ['of it fonts', kb(sum(/woff2$/)), ''],
    ['WebAssembly with every formula, gzip', kb(await packed(/husbandry-.*wasm$/)), ''], ['WebAssembly of the water to come, gzip, once the app is still', kb(await packed(/outlook-.*wasm$/)), ''],
  ];
}

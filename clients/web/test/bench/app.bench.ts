// What the app takes, as it is built and served: bytes, starts, drawing, entries,
// sending and fetching. The figures are kept in testdata/bench/web.md.
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { get } from 'node:http';
import { cpus, loadavg, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

import { afterAll, beforeAll, expect, test } from 'vitest';

import { Phone } from '../e2e/phone';
import { build, Server } from '../e2e/server';
import { beside, copying } from './copying';
import { kb, renewed, rowsOf, table, thousands, type Loaded, type Row } from './figures';
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
const rows: Loaded[] = [];
const file = join(root, 'testdata/bench/web.md');

beforeAll(async () => server.start(build(folder)));

afterAll(async () => {
  await Promise.all(phones.map((p) => p.remove()));
  await server.remove();
  rmSync(folder, { recursive: true, force: true });
  writeFileSync(file, page());
  console.log(`\n${table(rows)}\n`);
});

async function phone(): Promise<Phone> {
  const one = new Phone(server.origin);
  phones.push(one);
  await one.start();
  return one;
}

/** Measures, with the load that other programs made just before. */
async function measured(measure: () => Promise<Row[]>): Promise<void> {
  const load = loadavg()[0]!.toFixed(1);
  rows.push(...(await measure()).map((row): Loaded => [...row, load]));
}

test('the first load', () =>
  measured(async () => {
    const one = await phone();
    const loaded = await firstLoad(one);
    await one.end();
    return loaded;
  }));

test('Lighthouse', () => measured(async () => judged(server.origin)));

test('a full notebook', () =>
  measured(async () => {
    const one = await phone();
    const other = await phone();
    const { rows: copied, pulled } = await copying(one, server, readings, some(10_000, 200));
    const besides = await beside(other, readings, pulled);
    await other.end();
    const opened = [...(await opening(one, 11, `${thousands(3 * readings)} readings`)), ...(await chart(one, 11))];
    await one.end();
    return [...opened, ...copied, ...besides];
  }));

test('killed tabs', () => measured(async () => killed(await phone(), some(200, 5))));

function page(): string {
  const chromium = execFileSync(process.env['FRESHET_CHROMIUM'] ?? '/usr/bin/chromium', ['--version'], { encoding: 'utf8' }).split(' ').slice(0, 2).join(' ');
  const before = share === 1 && existsSync(file) ? rowsOf(readFileSync(file, 'utf8')) : [];
  return `# The phone app, measured

\`make bench-web\`${share === 1 ? '' : ` with FRESHET_BENCH_SHARE=${share}`}, ${chromium} without a window, 390 x 844, ${cpus().length} cores of ${cpus()[0]?.model.trim()}. Slowed means four times by the browser's own CPU throttling. Other programs count: the load is the machine's in the minute before. What axe finds, letters twice as large and 320 px are looked at by \`make screens\`, the whole job by keyboard alone by \`make test-web\`; both fail on any finding.

${table(renewed(before, rows))}
`;
}

/** How many bytes a file is on the wire; the browser's own requests tell of what was unpacked. */
function packedBytes(url: string): Promise<number> {
  return new Promise((done, fail) => {
    get(url, { headers: { 'accept-encoding': 'gzip' } }, (answer) => {
      let bytes = 0;
      answer.on('data', (part: Buffer) => (bytes += part.length)).on('end', () => done(bytes)).on('error', fail);
    }).on('error', fail);
  });
}

/** Bytes of files that the page fetched so far. */
async function fetched(one: Phone, of: RegExp): Promise<number> {
  const files = await one.page.evaluate(() => [...performance.getEntriesByType('navigation'), ...performance.getEntriesByType('resource')].map((e) => ({ name: e.name, bytes: (e as PerformanceResourceTiming).encodedBodySize })));
  return files.filter((f) => of.test(f.name)).reduce((all, f) => all + f.bytes, 0);
}

/** Bytes over the network until the cover is drawn, until what lies behind it is, and what comes after. */
async function firstLoad(one: Phone): Promise<Row[]> {
  const files = /\/$|\/#|\.(js|css|woff2)$/;
  await one.open();
  await one.button('Draw my loop').waitFor();
  await one.page.evaluate(() => document.fonts.ready.then(() => true));
  const cover = await fetched(one, files);
  expect(cover).toBeGreaterThan(0);
  await one.button('Draw my loop').click();
  await one.page.getByLabel('What do you call the place?').waitFor();
  const before = await fetched(one, files);
  await one.kept();
  const packed = async (file: RegExp): Promise<number> => {
    const names = await one.page.evaluate(async () => (await Promise.all((await caches.keys()).map(async (k) => (await (await caches.open(k)).keys()).map((r) => r.url)))).flat());
    return packedBytes(names.find((n) => file.test(n))!);
  };
  return [
    ['first load before WebAssembly, gzip', kb(before), 'under 250 kB'], ['of it until the cover is there', kb(cover), ''], ['of it fonts', kb(await fetched(one, /woff2$/)), ''],
    ['WebAssembly with every formula, gzip', kb(await packed(/husbandry-.*wasm$/)), ''], ['WebAssembly of the water to come, gzip, once the app is still', kb(await packed(/outlook-.*wasm$/)), ''],
  ];
}

// What the app takes, as it is built and served: bytes, starts, entries. The
// figures are kept in testdata/bench/web.md.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

import { expect, test } from 'vitest';

import { Phone } from '../e2e/phone';
import { build, Server } from '../e2e/server';

const times = Number(process.env['FRESHET_BENCH_TIMES'] ?? 40);
const root = resolve(import.meta.dirname, '../../../..');

test('the app is measured', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'freshet-bench-'));
  const server = new Server();
  await server.start(build(folder));
  const phone = new Phone(server.origin);
  try {
    await phone.start();
    const lines = [...(await firstLoad(phone)), ...(await starts(phone)), ...(await entries(phone))];
    writeFileSync(join(root, 'testdata/bench/web.md'), page(lines));
  } finally {
    await phone.remove();
    await server.remove();
    rmSync(folder, { recursive: true, force: true });
  }
});

function page(lines: string[]): string {
  const chromium = execFileSync(process.env['FRESHET_CHROMIUM'] ?? '/usr/bin/chromium', ['--version'], { encoding: 'utf8' }).split(' ').slice(0, 2).join(' ');
  return `# The phone app, measured\n\n\`make bench-web\` (FRESHET_BENCH_TIMES=${times}), ${chromium} without a window, 390 x 844, ${cpus().length} cores of ${cpus()[0]?.model.trim()}. Slowed means four times by the browser's own CPU throttling. Other programs count: the machine's load was ${loadavg()[1]!.toFixed(1)}.\n\n| what | measured |\n| --- | --- |\n${lines.join('\n')}\n`;
}

/** Bytes over the network until the cover is drawn, and what comes after it. */
async function firstLoad(phone: Phone): Promise<string[]> {
  await phone.open();
  await phone.button('Draw my loop').waitFor();
  const files = await phone.page.evaluate(() => [...performance.getEntriesByType('navigation'), ...performance.getEntriesByType('resource')].map((e) => ({ name: e.name, bytes: (e as PerformanceResourceTiming).encodedBodySize })));
  const sum = (of: RegExp): number => files.filter((f) => of.test(f.name)).reduce((all, f) => all + f.bytes, 0);
  const before = sum(/\/$|\/#|\.(js|css|woff2)$/);
  expect(before).toBeGreaterThan(0);
  await phone.kept();
  const wasm = await phone.page.evaluate(async () => {
    const name = performance.getEntriesByType('resource').map((e) => e.name).find((n) => n.endsWith('.wasm'));
    return name ? (await (await fetch(name, { cache: 'reload' })).arrayBuffer()).byteLength : 0;
  });
  return [`| first load before WebAssembly, gzip | ${kb(before)} |`, `| of it fonts | ${kb(sum(/woff2$/))} |`, `| WebAssembly with every formula, unpacked | ${kb(wasm)} |`];
}

/** Opens the invented notebook, fourteen months with hourly probes, with no network. */
async function starts(phone: Phone): Promise<string[]> {
  await phone.page.evaluate(() => localStorage.setItem('freshet.notebook', 'invented'));
  await phone.page.reload();
  await phone.page.getByRole('heading', { name: 'Fish tank' }).waitFor({ timeout: 120_000 });
  await phone.offline(true);
  await phone.slow();
  const content: number[] = [];
  for (let i = 0; i < Math.min(times, 11); i++) {
    await phone.page.reload();
    content.push(await phone.page.evaluate(() => new Promise<number>((seen) => {
      const look = (): void => void (document.querySelector('main h2') ? seen(performance.now()) : requestAnimationFrame(look));
      look();
    })));
  }
  await phone.offline(false);
  return [`| opened with no network on fourteen months of hourly records, slowed, until the stream is drawn | ${spread(content)} |`];
}

/** Entries in an own notebook: how long until "noted", and whether it is there after the tab was killed right then. */
async function entries(phone: Phone): Promise<string[]> {
  await phone.page.evaluate(() => localStorage.setItem('freshet.notebook', 'own'));
  await phone.page.reload();
  await phone.drawLoop('Weir End');
  await phone.slow();
  const took: number[] = [];
  let kept = 0;
  for (let i = 0; i < times; i++) {
    await phone.turnTo('Fish tank', 'A note');
    await phone.page.locator('textarea').fill(`killed ${i}.`);
    took.push(await phone.page.evaluate(() => new Promise<number>((noted) => {
      const from = performance.now();
      document.querySelector<HTMLElement>('main button.ink')!.click();
      const look = (): void => void (document.querySelector('[role=status] p span')?.textContent?.startsWith('Noted') ? noted(performance.now() - from) : setTimeout(look));
      look();
    })));
    await phone.killTab();
  }
  const diary = await phone.diary(`killed ${times - 1}.`);
  for (let i = 0; i < times; i++) kept += diary.some((line) => line.includes(`killed ${i}.`)) ? 1 : 0;
  expect(kept).toBe(times);
  return [`| from the tap until "noted", on disk, first of a tab | ${spread(took)} |`, `| there after the tab was killed right after "noted" | ${kept} of ${times} |`];
}

const kb = (bytes: number): string => `${Math.round(bytes / 1000)} kB`;

function spread(ms: number[]): string {
  const sorted = [...ms].sort((a, b) => a - b);
  const at = (share: number): string => `${Math.round(sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!)} ms`;
  return `median ${at(0.5)}, slowest ${at(1)}`;
}

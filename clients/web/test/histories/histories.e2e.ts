// Every history of testdata/sync, played unchanged on the app's device in a
// browser against a real server, as clients/README.md says.
import { execFileSync, spawn, type ChildProcess } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { createInterface } from 'node:readline';

import { chromium, type Browser } from 'playwright-core';
import { build } from 'vite';
import { afterAll, beforeAll, expect, test } from 'vitest';

import type { Hosted, Player } from './player';

const root = resolve(import.meta.dirname, '../../../..');
const sync = join(root, 'testdata/sync');
const folder = mkdtempSync(join(tmpdir(), 'freshet-histories-'));
let host: ChildProcess;
let answers: AsyncIterator<string>;
let browser: Browser;
let script: string;

beforeAll(async () => {
  execFileSync('go', ['build', '-trimpath', '-o', join(folder, 'check'), './cmd/check'], { cwd: root, stdio: 'inherit' });
  host = spawn(join(folder, 'check'), ['histories'], { stdio: ['pipe', 'pipe', 'inherit'] });
  answers = createInterface(host.stdout!)[Symbol.asyncIterator]();
  script = await bundled();
  browser = await chromium.launch({ executablePath: process.env['FRESHET_CHROMIUM'] ?? '/usr/bin/chromium', args: ['--no-sandbox'] });
});

afterAll(async () => {
  await browser?.close();
  if (host) {
    const ended = new Promise((end) => host.once('exit', end));
    host.stdin!.end();
    await ended;
  }
  rmSync(folder, { recursive: true, force: true });
});

/** The player and the device, as one script. */
async function bundled(): Promise<string> {
  const built = await build({
    configFile: false, logLevel: 'error',
    build: { write: false, minify: false, target: 'es2022', lib: { entry: join(import.meta.dirname, 'player.ts'), formats: ['iife'], name: 'histories' } },
  });
  const [output] = Array.isArray(built) ? built : [built];
  if (!output || !('output' in output)) throw new Error('nothing was built');
  return output.output[0].code;
}

/** Asks the host to take a step. */
async function taken(step: object): Promise<Hosted> {
  host.stdin!.write(JSON.stringify(step) + '\n');
  return JSON.parse((await answers.next()).value as string) as Hosted;
}

const read = (name: string): string => readFileSync(join(sync, name), 'utf8');
const names = readdirSync(sync).filter((name) => name.endsWith('.json') && name !== 'ground.json');

test('there are histories', () => expect(names.length).toBeGreaterThan(10));

test.each(names)('%s', async (name) => {
  const { code, http } = await taken({ new: true });
  const page = await browser.newPage();
  // A page of the server's own origin: it lets no other in.
  await page.route('**/player.html', (route) => route.fulfill({ contentType: 'text/html', body: '<!doctype html><title>Player</title>' }));
  await page.exposeFunction('host', taken);
  await page.goto(`http://${http}/player.html`);
  await page.evaluate(script);
  const wrong = await page.evaluate(
    ([called, ground, history, invitation]) => {
      const page = globalThis as unknown as { Player: typeof Player; host(step: object): Promise<Hosted> };
      return new page.Player(called, page.host).play(ground, history, invitation);
    },
    [name, read('ground.json'), read(name), code!] as [string, string, string, string],
  );
  await page.close();
  expect(wrong).toEqual([]);
});

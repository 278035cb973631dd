// How fast a phone sends and fetches, and a general-purpose replicating store
// beside it in the same browser.
import { fork, type ChildProcess } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

import { expect } from 'vitest';

import { bare } from '../bare';
import type { Phone } from '../e2e/phone';
import type { Server } from '../e2e/server';
import { seconds, thousands, type Row } from './figures';
import type { Hand } from '../hand';

interface InPage {
  hands: { Hand: typeof Hand };
  first: Hand;
  own: Hand;
  store: { copy(): Promise<{ took: number; count: number }> };
}

const peers = resolve(import.meta.dirname, '../../../../testdata/bench/peers');

/** Fills the app's notebook with three times so many readings; readings a second that it fetched are given for comparison. */
export async function copying(phone: Phone, server: Server, count: number, entries: number): Promise<{ rows: Row[]; pulled: number }> {
  const { page } = phone;
  await bare(page, server.origin, join(import.meta.dirname, '../hand.ts'), 'hands');
  const pushed = await page.evaluate(async ([code, n]) => {
    const here = globalThis as unknown as InPage;
    here.first = new here.hands.Hand('bench-first');
    await here.first.join(code);
    await here.first.settle();
    await here.first.readings(n, 1);
    return here.first.sync();
  }, [server.code, count] as const);
  const pulled = await page.evaluate(async () => {
    const here = globalThis as unknown as InPage;
    here.own = new here.hands.Hand('own');
    await here.own.join(await here.first.invite());
    return { took: await here.own.sync(), count: await here.own.copied() };
  });
  expect(pulled.count).toBe(count);
  const walked = await page.evaluate(async (n) => {
    const here = globalThis as unknown as InPage;
    await here.first.walks(n);
    const took = await here.first.sync();
    await here.own.sync();
    return { took, count: await here.own.copied() };
  }, entries);
  expect(walked.count).toBe(count + entries);
  const all = await page.evaluate(async (n) => {
    const here = globalThis as unknown as InPage;
    await here.first.readings(2 * n, 1 + Math.ceil(n / 12));
    await here.first.sync();
    await here.own.sync();
    const late = new here.hands.Hand('late');
    await late.join(await here.first.invite());
    const took = await late.sync();
    const copied = await late.copied();
    for (const hand of [here.first, here.own, late]) hand.close();
    return { took, count: copied };
  }, count);
  expect(all.count).toBe(3 * count + entries);
  const rows: Row[] = [
    [`${thousands(entries)} entries made one by one without a network, sent`, seconds(walked.took), 'under 5 s for 10,000'],
    [`${thousands(count)} readings sent`, seconds(pushed), ''],
    [`${thousands(count)} readings fetched by a new phone`, seconds(pulled.took), 'under 6 s for 100,000'],
    [`the first sync of a site of three years: ${thousands(3 * count)} readings and ${thousands(entries)} entries`, seconds(all.took), ''],
  ];
  return { rows, pulled: count / pulled.took };
}

/** The same number of readings through the other store, as documents. */
export async function beside(phone: Phone, count: number, ours: number): Promise<Row[]> {
  const folder = mkdtempSync(join(tmpdir(), 'freshet-peer-'));
  const child = fork(join(peers, 'server.js'), [folder], { stdio: 'ignore' });
  const tab = await phone.tab();
  try {
    const origin = await filled(child, count);
    await bare(tab.page, origin, join(import.meta.dirname, 'store.js'), 'store');
    const { took, count: copied } = await tab.page.evaluate(() => (globalThis as unknown as InPage).store.copy());
    expect(copied).toBe(count);
    return [
      [`the same ${thousands(count)} fetched by pouchdb 9.0.0 in the same browser, of express-pouchdb`, seconds(took), ''],
      ['how many times as fast ours was', ((ours * took) / count).toFixed(1), 'at least 5'],
    ];
  } finally {
    await tab.page.close();
    child.kill();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Fills the store's server with readings, and gives its origin. */
async function filled(child: ChildProcess, count: number): Promise<string> {
  const { port } = await new Promise<{ port: number }>((heard) => child.once('message', (m) => heard(m as { port: number })));
  const origin = `http://127.0.0.1:${port}`;
  const send = async (method: string, path: string, body?: object): Promise<void> => {
    const answer = await fetch(`${origin}/readings${path}`, { method, headers: { 'content-type': 'application/json' }, ...(body && { body: JSON.stringify(body) }) });
    if (!answer.ok) throw new Error(await answer.text());
    await answer.arrayBuffer();
  };
  await send('PUT', '');
  for (let from = 0; from < count; from += 1000) {
    const docs = Array.from({ length: Math.min(1000, count - from) }, (_, i) => ({
      _id: `weir-${String(from + i).padStart(8, '0')}`, kind: 'reading', at: new Date(1.7e12 + (from + i) * 900_000).toISOString(), quantity: 'QUANTITY_PH', digits: 690 + (i % 40), decimals: 2, unit: 'UNIT_NONE', method: 'METHOD_PROBE',
    }));
    await send('POST', '/_bulk_docs', { docs });
  }
  return origin;
}

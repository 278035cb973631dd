// The app whole: a browser, a server, a database, nothing stood in for.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

import { afterAll, beforeAll, expect, test } from 'vitest';

import { Phone } from './phone';
import { buildBoth, Server, type Programs } from './server';

let programs: Programs;
let server: Server;
let first: Phone;
let second: Phone;
const week = [1, 2, 3, 4, 5].map((i) => `walk ${i} of the week`) as [string, string, string, string, string];
const built = mkdtempSync(join(tmpdir(), 'freshet-built-'));

beforeAll(async () => {
  programs = buildBoth(built);
  server = new Server();
  await server.start(programs.now);
  [first, second] = [new Phone(server.origin), new Phone(server.origin)];
  await Promise.all([first.start(), second.start()]);
});

afterAll(async () => {
  await Promise.all([first?.remove(), second?.remove()]);
  await server?.remove();
  rmSync(built, { recursive: true, force: true });
});

test('the cover of an empty notebook is there before what lies behind it, which is fetched once somebody turns it over', async () => {
  const fetched: string[] = [];
  second.page.on('request', (r) => fetched.push(new URL(r.url()).pathname));
  await second.open();
  await second.button('Draw my loop').waitFor();
  await second.page.locator('.reach').last().locator('.mouth').last().waitFor();
  expect(fetched.filter((f) => /^\/assets\/(start|shared)-.*js$/.test(f))).toEqual([]);
  await second.page.route('**/assets/start-*.js', (route) => route.abort()); // a signal that is gone again
  await second.button('Draw my loop').click();
  await second.page.getByRole('alert').getByText('could not be fetched').waitFor();
  await second.page.unroute('**/assets/start-*.js');
  await second.button('Draw my loop').click();
  await second.page.getByLabel('What do you call the place?').waitFor();
  await second.page.goBack();
  await second.button('Draw my loop').waitFor();
});

test('a steward joins and draws her loop', async () => {
  await first.join(server.code, 'Ilka Fenn');
  await first.drawLoop('Weir End');
  await first.noteReading('Fish tank', 'pH', '7');
  await first.send();
  await first.diary('pH 7');
});

test('what is noted without a network outlives a reload, a killed tab and a killed browser, and is sent once', async () => {
  await first.kept();
  await first.page.reload(); // from now on the worker serves
  await first.offline(true);
  for (const walk of week.slice(0, 4)) {
    await first.noteWords('Fish tank', walk);
    await first.page.reload();
  }
  await first.noteWords('Settler', week[4]);
  await first.killTab(); // right after "noted"
  await first.noteReading('Fish tank', 'pH', '8');
  await first.end();
  await first.start();
  await first.offline(true);
  await first.waits(6);
  const noted = await first.diary(...week, 'pH 8');
  await first.offline(false);
  await first.send();
  expect(await first.diary(...week, 'pH 8')).toEqual(noted);
});

test('a second phone of hers reads all of it, each entry once', async () => {
  await second.join(await invitation(first));
  const read = await second.diary(...week, 'pH 8');
  for (const walk of week) expect(read.filter((line) => line.includes(walk)), walk).toHaveLength(1);
});

test('of two names given without a network the later one holds on both phones', async () => {
  await Promise.all([first.offline(true), second.offline(true)]);
  await first.rename('Settler', 'Old barrel');
  // The server settles from the phones' clocks which came later, as closely as its answers are quick.
  await first.page.waitForTimeout(5_000);
  await second.rename('Settler', 'New barrel');
  await second.offline(false);
  await second.send();
  await first.offline(false);
  await first.send();
  await second.send();
  for (const phone of [first, second]) {
    await phone.open('build');
    await phone.page.locator('main').getByText('New barrel').waitFor();
    expect(await phone.page.locator('main').getByText(/Old barrel|Settler/).count()).toBe(0);
  }
});

test('a newer version of the app waits while entries wait, and for the person; none is lost', async () => {
  await first.kept();
  await first.page.reload();
  await server.stop();
  await first.noteWords('Fish tank', 'before the newer version');
  await first.waits(1);
  await server.start(programs.newer);
  // The worker fetches it beside the one that is served.
  await first.page.evaluate(async () => void (await (await navigator.serviceWorker.ready).update()));
  await first.page.reload();
  expect(await first.page.locator('html').getAttribute('data-release')).toBeNull();
  await first.send();
  await first.button('Open it').click();
  const newer = first.page.locator('html[data-release=newer]');
  await newer.waitFor({ state: 'attached' });
  await first.diary('before the newer version');
  await first.offline(true);
  await first.page.reload();
  await newer.waitFor({ state: 'attached' });
  await first.offline(false);
});

test('the phone of a member who left takes everything off itself, also what the cooperative said of others, and says why', async () => {
  const { code } = await call(first, 'CreateInvitation', { role: 'ROLE_GROWER' });
  const leaver = new Phone(server.origin);
  try {
    await leaver.start();
    await leaver.join(String(code), 'Tove Marsh');
    await leaver.page.evaluate(() => localStorage.setItem('freshet.together.here.1', '0 heard'));
    await call(leaver, 'Leave', { displayName: 'Tove Marsh' });
    await leaver.open('phone');
    await leaver.button('Try now').click();
    await leaver.page.getByText('You left the cooperative').waitFor();
    const kept = await leaver.page.evaluate(async () => {
      const done = <T>(request: IDBRequest<T>): Promise<T> => new Promise((resolve) => (request.onsuccess = () => resolve(request.result)));
      const db = await done(indexedDB.open('freshet-own'));
      const counts: Record<string, number> = {};
      for (const name of db.objectStoreNames) if (name !== 'facts') counts[name] = await done(db.transaction(name).objectStore(name).count());
      const token = await done(db.transaction('facts').objectStore('facts').get('token'));
      db.close();
      return { rows: Object.values(counts).reduce((a, b) => a + b, 0), token: token ?? '', heard: localStorage.getItem('freshet.together.here.1') };
    });
    expect(kept).toEqual({ rows: 0, token: '', heard: null });
    await leaver.open('stream');
    await leaver.button('Draw my loop').waitFor(); // as a phone that was never used
    expect(leaver.complaints).toEqual([]);
  } finally {
    await leaver.remove();
  }
});

test('what was noted before the first contact, by a clock two years slow, is put on its day in one tap', async () => {
  const { code } = await call(first, 'CreateInvitation', { role: 'ROLE_GROWER' });
  const newcomer = new Phone(server.origin);
  try {
    await newcomer.start();
    await newcomer.page.clock.setSystemTime(Date.now() - 2 * 365 * 86_400_000);
    await newcomer.drawLoop('Fen Edge');
    await newcomer.noteWords('Fish tank', 'before the first contact');
    await newcomer.join(String(code), 'Una Reed');
    await newcomer.open('left');
    await newcomer.noting(newcomer.button('Put the days right'));
    await newcomer.page.getByText('Nothing was refused and nothing is held.').waitFor();
    expect((await newcomer.diary('before the first contact')).filter((line) => line.includes('before the first contact'))).toHaveLength(1);
    await newcomer.page.getByRole('heading', { name: 'Today' }).waitFor();
    await newcomer.send();
    expect(await newcomer.copied('before the first contact')).toBe(2); // as it was noted, and what puts it right
    expect(newcomer.complaints).toEqual([]);
  } finally {
    await newcomer.remove();
  }
});

test('a phone that is shut out keeps what was noted, and says why it is not sent', async () => {
  await shutOut(first, second);
  await second.noteWords('Fish tank', 'after being shut out');
  await second.open('phone');
  await second.button('Try now').click();
  await second.page.getByText(/shut this phone out|does not know this phone/).waitFor();
  await second.waits(1);
  await second.diary('after being shut out');
});

test('no page asked for what the policy of the server forbids, and none threw', () => {
  expect([...first.complaints, ...second.complaints]).toEqual([]);
});

// Calls that a page makes with the phone's own token.
function call(phone: Phone, method: string, body: object): Promise<Record<string, unknown>> {
  return phone.page.evaluate(async ([name, sent]) => {
    const db = await new Promise<IDBDatabase>((opened) => {
      const request = indexedDB.open('freshet-own');
      request.onsuccess = () => opened(request.result);
    });
    const token = await new Promise<string>((got) => {
      const request = db.transaction('facts').objectStore('facts').get('token');
      request.onsuccess = () => got(request.result as string);
    });
    db.close();
    const answer = await fetch(`/freshet.v1.AccountService/${name}`, {
      method: 'POST', body: JSON.stringify(sent), headers: { 'content-type': 'application/json', authorization: `Bearer ${token}`, 'connect-protocol-version': '1' },
    });
    if (!answer.ok) throw new Error(await answer.text());
    return (await answer.json()) as Record<string, unknown>;
  }, [method, body] as const);
}

const invitation = async (phone: Phone): Promise<string> => String((await call(phone, 'CreateInvitation', {}))['code']);

/** Ends the other phone's token. */
async function shutOut(by: Phone, other: Phone): Promise<void> {
  const { devices } = (await call(by, 'ListDevices', {})) as { devices: { deviceId: string }[] };
  const mine = await own(other);
  expect(devices.map((d) => d.deviceId)).toContain(mine);
  await call(by, 'RevokeDevice', { deviceId: mine });
}

const own = (phone: Phone): Promise<string> =>
  phone.page.evaluate(
    () =>
      new Promise<string>((got) => {
        const opening = indexedDB.open('freshet-own');
        opening.onsuccess = () => {
          const request = opening.result.transaction('facts').objectStore('facts').get('deviceId');
          request.onsuccess = () => {
            opening.result.close();
            got(request.result as string);
          };
        };
      }),
  );

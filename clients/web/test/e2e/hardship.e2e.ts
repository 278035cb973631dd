// What a phone meets in a greenhouse: two tabs, no room, no camera, lines that
// answer nonsense; and what a person takes back.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

import { afterAll, beforeAll, expect, test } from 'vitest';

import { Phone } from './phone';
import { withPlace } from './picture';
import { build, Server } from './server';

const built = mkdtempSync(join(tmpdir(), 'freshet-hardship-'));
const server = new Server();
let phone: Phone;

beforeAll(async () => {
  await server.start(build(built));
  phone = new Phone(server.origin);
  await phone.start();
  await phone.join(server.code, 'Ilka Fenn');
  await phone.drawLoop('Weir End');
  await phone.send();
});

afterAll(async () => {
  await phone?.remove();
  await server.remove();
  rmSync(built, { recursive: true, force: true });
});

test('sharing is given and taken back', async () => {
  const chosen = (level: string): Promise<void> =>
    phone.page.getByRole('group', { name: /^Everything but/ }).locator('[aria-pressed=true]').filter({ hasText: level }).waitFor();
  const choose = (level: string): Promise<void> => phone.page.getByRole('group', { name: /^Everything but/ }).getByRole('button', { name: level }).click();
  await phone.open('together');
  await chosen('private');
  await choose('named');
  await chosen('named');
  await phone.page.reload();
  await chosen('named');
  await choose('private');
  await chosen('private');
  await phone.page.reload();
  await chosen('private');
});

test('the place that was open is remembered; where it is not of this notebook another is opened', async () => {
  const remembered = (): Promise<string> => phone.page.evaluate(() => (JSON.parse(localStorage.getItem('freshet.habits')!) as { siteId: string }).siteId);
  await phone.open('stream');
  await phone.page.locator('#walk').waitFor();
  const place = await remembered();
  expect(place).not.toBe('');
  await phone.page.evaluate(() => localStorage.setItem('freshet.habits', JSON.stringify({ siteId: 'of the invented records' })));
  await phone.page.reload();
  await phone.page.locator('#walk').waitFor();
  expect(await remembered()).toBe(place);
});

test('a photo is kept without the place it was taken at, sent after its entry, fetched where it is not, and taken back', async () => {
  await phone.turnTo('Fish tank', 'A photo');
  await phone.page.locator('input[type=file]').setInputFiles({ name: 'leaf.jpg', mimeType: 'image/jpeg', buffer: await withPlace(phone.page, '45.3 N 89.8 W') });
  await phone.page.locator('textarea').fill('pale at the edge');
  await phone.noting(phone.page.locator('main button.ink'));
  await phone.diary('pale at the edge');
  const image = phone.page.locator('main img');
  await image.waitFor();
  expect(await image.evaluate((i: HTMLImageElement) => i.decode().then(() => i.naturalWidth))).toBe(64);
  expect(await keptPictures(phone)).toEqual([expect.not.stringMatching(/Exif|45\.3 N/)]);
  // First to a server and by an app of before there were files, which is then renewed.
  const earlier = await phone.between((route) => (route.request().url().includes('PhotoService') ? route.fulfill({ status: 404 }) : route.continue()));
  await phone.send();
  await phone.page.getByText('1 picture is only on this phone').waitFor();
  await earlier();
  await photosOfBefore(phone);
  await phone.send();
  await expect.poll(() => photosHere(phone, 'told')).toBe(1); // it has arrived
  await phone.page.getByText('Nothing waits on this phone').waitFor();
  // As a phone that never had it: the small picture first, whole when it is pressed.
  await photosHere(phone, 'photos', 'forget');
  await photosHere(phone, 'thumbnails', 'forget');
  await phone.diary('pale at the edge');
  await image.waitFor();
  expect(await photosHere(phone, 'photos')).toBe(0);
  await phone.page.getByRole('button', { name: 'Show the picture whole' }).click();
  await expect.poll(() => photosHere(phone, 'photos')).toBe(1);
  await phone.page.locator('main summary').filter({ hasText: 'pale at the edge' }).click();
  await phone.noting(phone.page.locator('details[open]').getByRole('button'));
  await image.waitFor({ state: 'detached' });
});

test('two tabs read the same, and the one that stays sends', async () => {
  const other = await phone.tab();
  await other.open('diary');
  await phone.noteWords('Settler', 'seen from both tabs');
  await other.page.locator('main summary').filter({ hasText: 'seen from both tabs' }).waitFor();
  await phone.page.close();
  phone.page = other.page;
  await phone.send();
  await phone.diary('seen from both tabs');
});

test('where there is no room nothing is noted, what was typed stays, and it says what to do', async () => {
  const full = phone.page.getByRole('alert').getByText('no room left');
  const walk = phone.page.locator('#walk');
  const ink = phone.page.locator('main button.ink');
  await phone.room(1);
  let tries = 0;
  do {
    // The browser looks at the room again only from time to time.
    await phone.turnTo('Settler', 'A note');
    await phone.page.locator('textarea').fill(`for want of room ${++tries}`);
    await ink.click();
    await full.or(walk).first().waitFor();
  } while (!(await full.isVisible()));
  expect(await phone.page.locator('textarea').inputValue()).toBe(`for want of room ${tries}`);
  await phone.room();
  // Also the last press may find the page turned.
  while (!(await walk.isVisible())) await ink.click({ timeout: 1000 }).catch(() => undefined);
  await phone.send();
  await phone.diary(`for want of room ${tries}`);
});

test('a camera that is refused says so, and leaves another way', async () => {
  await phone.open('scan');
  await phone.page.getByRole('status').filter({ hasText: 'The camera was not allowed' }).waitFor();
  await phone.page.getByText('Read a picture instead').waitFor();
});

const lines = {
  'a sign-in page': ['Something else answered', (route) => route.fulfill({ contentType: 'text/html', body: '<title>Hotel</title><form>Sign in</form>' })],
  'an error of the server': ['No word from', (route) => route.fulfill({ status: 500, body: 'oops' })],
  'a line that breaks': ['No word from', (route) => route.abort('connectionreset')],
} satisfies Record<string, [string, Parameters<Phone['between']>[0]]>;

test.each(Object.entries(lines))('%s in between loses nothing, and is told', async (name, [words, answer]) => {
  const stop = await phone.between(answer);
  try {
    await phone.noteWords('Fish tank', `past ${name}`);
    await phone.open('phone');
    await phone.button('Try now').click();
    await phone.page.getByRole('alert').getByText(words).waitFor();
    await phone.waits(1);
  } finally {
    await stop();
  }
  await phone.send();
  await phone.diary(`past ${name}`);
});

test('half a stream is told, and what is missing comes with the next', async () => {
  const stop = await phone.between(async (route) => {
    if (!route.request().url().endsWith('/Pull')) return route.continue();
    const response = await route.fetch();
    const body = await response.body();
    await route.fulfill({ response, body: body.subarray(0, Math.floor(body.length / 2)) });
  });
  try {
    await phone.noteWords('Fish tank', 'comes back cut in half'); // else there may be nothing to fetch, and no stream to cut
    await phone.open('phone');
    await phone.button('Try now').click();
    await phone.page.getByRole('alert').waitFor();
  } finally {
    await stop();
  }
  await phone.send();
  await phone.page.getByRole('alert').waitFor({ state: 'detached' });
});

test('a phone set up from a backup of another takes a name of its own, and what both noted is kept once each', async () => {
  await phone.offline(true);
  await phone.noteWords('Fish tank', 'waits on both');
  await phone.end();
  const copy = phone.copy();
  try {
    await Promise.all([phone.start(), copy.start()]);
    await phone.noteWords('Fish tank', 'noted on the first');
    await phone.send();
    await copy.noteWords('Fish tank', 'noted on the copy');
    await copy.send();
    await phone.send();
    for (const read of [phone, copy]) {
      const all = ['waits on both', 'noted on the first', 'noted on the copy'] as const;
      const lines = await read.diary(...all);
      for (const words of all) expect(lines.filter((line) => line.includes(words)), words).toHaveLength(1);
    }
    expect(copy.complaints).toEqual([]);
  } finally {
    await copy.remove();
  }
});

test('none of it made the page throw', () => expect(phone.complaints).toEqual([]));

/** How many the phone keeps in a store of its pictures; they can be forgotten first. */
const photosHere = (of: Phone, store: string, forget?: 'forget'): Promise<number> =>
  of.page.evaluate(
    async ([name, forgets]) => {
      const done = <T>(request: IDBRequest<T>): Promise<T> => new Promise((resolve) => (request.onsuccess = () => resolve(request.result)));
      const db = await done(indexedDB.open('freshet-own-photos'));
      const kept = db.transaction(name!, 'readwrite').objectStore(name!);
      if (forgets) await done(kept.clear());
      const count = await done(kept.count());
      db.close();
      return count;
    },
    [store, forget],
  );

/** Keeps the pictures as the app did before it sent them: in a database with nothing else. The page that is left open is not the app's. */
const photosOfBefore = async (of: Phone): Promise<void> => {
  await of.page.goto(`${of.origin}/sw.js`);
  await of.page.evaluate(async () => {
    const done = <T>(request: IDBRequest<T>): Promise<T> => new Promise((resolve) => (request.onsuccess = () => resolve(request.result)));
    const now = await done(indexedDB.open('freshet-own-photos'));
    const photos = now.transaction('photos').objectStore('photos');
    const [keys, pictures] = [await done(photos.getAllKeys()), await done(photos.getAll())];
    now.close();
    await done(indexedDB.deleteDatabase('freshet-own-photos'));
    const opening = indexedDB.open('freshet-own-photos', 1);
    opening.onupgradeneeded = () => opening.result.createObjectStore('photos');
    const before = await done(opening);
    const kept = before.transaction('photos', 'readwrite').objectStore('photos');
    for (const [i, key] of keys.entries()) await done(kept.put(pictures[i], key));
    before.close();
  });
};

/** The pictures that the phone keeps, as text. */
const keptPictures = (of: Phone): Promise<string[]> =>
  of.page.evaluate(async () => {
    const done = <T>(request: IDBRequest<T>): Promise<T> => new Promise((resolve) => (request.onsuccess = () => resolve(request.result)));
    const db = await done(indexedDB.open('freshet-own-photos'));
    const kept = (await done(db.transaction('photos').objectStore('photos').getAll())) as Blob[];
    db.close();
    return Promise.all(kept.map((picture) => picture.text()));
  });

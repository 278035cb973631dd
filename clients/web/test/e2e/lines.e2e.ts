// More of what a phone meets: names that lead nowhere, another cooperative's server,
// clocks far off, a used invitation, browsers that keep nothing or little.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

import { chromium, type Browser, type Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';

import { patience, Phone } from './phone';
import { build, Server } from './server';

const built = mkdtempSync(join(tmpdir(), 'freshet-lines-'));
const server = new Server();
let program: string;
let phone: Phone;
/** Windows that keep nothing once they are shut. */
let windows: Browser;

beforeAll(async () => {
  program = build(built);
  await server.start(program);
  phone = new Phone(server.origin);
  await phone.start();
  await phone.join(server.code, 'Ilka Fenn');
  await phone.drawLoop('Weir End');
  await phone.send();
  windows = await chromium.launch({ executablePath: process.env['FRESHET_CHROMIUM'] ?? '/usr/bin/chromium', args: ['--no-sandbox'] });
});

afterAll(async () => {
  await windows?.close();
  await phone?.remove();
  await server.remove();
  rmSync(built, { recursive: true, force: true });
});

const tryNow = async (told: string | RegExp): Promise<void> => {
  await phone.open('phone');
  await phone.button('Try now').click();
  await phone.page.getByRole('alert').getByText(told).waitFor();
};

test('a name that leads nowhere loses nothing', async () => {
  const stop = await phone.between((route) => route.abort('namenotresolved'));
  try {
    await phone.noteWords('Fish tank', 'no such name');
    await tryNow('No word from');
    await phone.waits(1);
  } finally {
    await stop();
  }
  await phone.send();
  await phone.diary('no such name');
});

test('another cooperative at the same address is sent nothing', async () => {
  await server.stop();
  const stranger = new Server();
  stranger.origin = server.origin;
  await stranger.start(program);
  try {
    await phone.noteWords('Fish tank', 'for our own only');
    await tryNow(/another cooperative|does not know this phone/);
    await phone.waits(1);
  } finally {
    await stranger.remove();
  }
  await server.start(program);
  await phone.send();
  await phone.diary('for our own only');
});

test('what is noted under a clock five years slow is told of, sent and refused by nobody, and put on its day once she says so; once the server was heard "now" is today', async () => {
  await phone.page.clock.setSystemTime(Date.now() - 5 * 365 * 86_400_000);
  await phone.noteWords('Fish tank', 'five years ago');
  await phone.open('phone');
  await phone.button('Try now').click();
  await phone.page.getByText(/This phone’s clock is .* off/).waitFor();
  await phone.page.getByText('Nothing waits on this phone').waitFor();
  await phone.open('stream');
  await phone.page.getByText(/This phone’s clock is .* off/).waitFor();
  await phone.page.getByRole('link', { name: 'Look at them' }).click();
  await phone.noting(phone.button('Put the days right'));
  await phone.page.getByText('Nothing was refused and nothing is held.').waitFor();
  await phone.open('diary');
  await phone.page.getByRole('heading', { name: 'Today' }).waitFor();
  expect((await phone.diary('five years ago')).filter((line) => line.includes('five years ago'))).toHaveLength(1);
  await phone.noteWords('Fish tank', 'of today');
  await phone.killTab();
  expect((await phone.diary('of today')).filter((line) => line.includes('of today'))).toHaveLength(1);
  await phone.page.getByRole('heading', { name: 'Today' }).waitFor();
  await phone.send();
  expect([await phone.copied('five years ago'), await phone.copied('of today')]).toEqual([2, 1]); // as it was noted, and what puts it right
});

test('what a clock five years fast dated is refused and kept, and goes with the right day once she says so', async () => {
  await phone.offline(true); // else it is dated right
  await phone.page.clock.setSystemTime(Date.now() + 5 * 365 * 86_400_000);
  await phone.noteWords('Fish tank', 'five years from now');
  await phone.offline(false);
  await phone.open('phone');
  await phone.button('Try now').click();
  await phone.page.getByText(/This phone’s clock is .* off/).waitFor();
  await phone.page.getByRole('link', { name: 'Look at them' }).click();
  await phone.page.getByRole('heading', { name: /five years from now/ }).waitFor();
  await phone.page.clock.setSystemTime(Date.now()); // she set it right
  await phone.page.reload();
  await phone.open('left');
  await phone.noting(phone.button('Send it with this day'));
  await phone.page.getByText('Nothing was refused and nothing is held.').waitFor();
  await phone.send();
  await phone.open('left');
  await phone.page.getByText('Nothing was refused and nothing is held.').waitFor();
  expect((await phone.diary('five years from now')).filter((line) => line.includes('five years from now'))).toHaveLength(1);
});

test('a note of 10,000 characters with emoji, writing from right to left and what looks like a script arrives letter by letter', async () => {
  const odd = `<script>globalThis.pwned=1</script> '; DROP TABLE notes; -- 🐟👩🏽‍🌾 قِسْتُ الماءَ عند الفجر שלום {{7*7}} %s \\u0000 `;
  let text = '';
  for (const letter of odd.repeat(300)) if (text.length + letter.length <= 9_991) text += letter;
  text += ' the end.';
  await phone.noteWords('Fish tank', text);
  await phone.waits(1);
  await phone.send();
  await phone.open('left');
  await phone.page.getByText('Nothing was refused and nothing is held.').waitFor();
  expect(await phone.copied(text)).toBe(1);
  await phone.diary('the end.');
  expect(await phone.page.evaluate(() => 'pwned' in globalThis)).toBe(false);
});

test('an invitation that is used up says so, and keeps what was noted', async () => {
  const second = new Phone(server.origin);
  try {
    await second.start();
    await second.open('stream');
    await second.drawLoop('Mill Side');
    await second.open(`join/${server.code}`);
    await second.button('Join').click();
    await second.page.getByRole('alert').getByText('used already').waitFor();
    await second.open('stream');
    await second.page.getByRole('heading', { name: 'Mill Side' }).waitFor();
    expect(second.complaints).toEqual([]);
  } finally {
    await second.remove();
  }
});

/** A window of its own; what is put into it before the app stands for how the browser is set. */
async function privately(look: (page: Page) => Promise<void>, set?: () => void): Promise<void> {
  const context = await windows.newContext({ locale: 'en-GB', viewport: { width: 390, height: 844 } });
  context.setDefaultTimeout(patience);
  try {
    const page = await context.newPage();
    if (set) await page.addInitScript(set);
    await page.goto(server.origin);
    await look(page);
  } finally {
    await context.close();
  }
}

test('in a private window it works, and says that the browser may clear it', () =>
  privately(async (page) => {
    await page.getByRole('button', { name: 'Draw my loop' }).click();
    await page.getByLabel('What do you call the place?').fill('Short Stay');
    await page.getByLabel(/^Water it holds/).fill('900');
    await page.getByRole('button', { name: 'Draw it' }).click();
    await page.getByRole('button', { name: 'The water goes back: done' }).click();
    await page.locator('#walk').waitFor();
    await page.reload();
    await page.getByRole('heading', { name: 'Short Stay' }).waitFor();
    await page.goto(`${server.origin}/#/phone`);
    await page.getByText('The browser may clear it').waitFor();
  }));

const shut = (): void => void Object.defineProperty(globalThis, 'indexedDB', { get: () => { throw new DOMException('denied', 'SecurityError'); } });
const refused = (): void => {
  IDBFactory.prototype.open = (): IDBOpenDBRequest => { throw new DOMException('denied', 'InvalidStateError'); };
};

test.each([['shut', shut, 'at once'], ['refused', refused, 'once the cover is turned over']] as const)('where storage is %s it says so and what to do, instead of nothing', (_, set, when) =>
  privately(async (page) => {
    if (when !== 'at once') await page.getByRole('button', { name: 'Draw my loop' }).click(); // before anything can be typed
    await page.getByRole('alert').getByText('keeps nothing').waitFor();
    await page.getByRole('button', { name: 'Try again' }).waitFor();
  }, set));

test('none of it made the page throw', () => expect(phone.complaints).toEqual([]));

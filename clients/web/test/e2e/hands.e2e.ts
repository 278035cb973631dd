// The whole job by keyboard alone, and names that nobody means on every page.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

import { afterAll, beforeAll, expect, test } from 'vitest';

import { bare } from '../bare';
import { pages } from '../pages';
import { Phone } from './phone';
import { build, Server } from './server';
import type * as Strange from './strange';

const built = mkdtempSync(join(tmpdir(), 'freshet-hands-'));
const server = new Server();
const phones: Phone[] = [];

beforeAll(async () => server.start(build(built)));

afterAll(async () => {
  await Promise.all(phones.map((p) => p.remove()));
  await server.remove();
  rmSync(built, { recursive: true, force: true });
});

async function begun(): Promise<Phone> {
  const phone = new Phone(server.origin);
  phones.push(phone);
  await phone.start();
  return phone;
}

/** Goes with the Tab key to what is called so, and sees that the focus shows; then presses Enter. */
async function reach({ page }: Phone, name: RegExp, key: 'Tab' | 'Shift+Tab' = 'Tab'): Promise<void> {
  const met: string[] = [];
  for (let i = 0; i < 160; i++) {
    await page.keyboard.press(key);
    const at = await page.evaluate(() => {
      const e = document.activeElement as HTMLElement;
      const r = e.getBoundingClientRect();
      return { name: (e.getAttribute('aria-label') ?? e.innerText).trim().replace(/\s+/g, ' '), ring: getComputedStyle(e).outlineStyle, seen: r.bottom > 0 && r.top < innerHeight };
    });
    met.push(at.name.slice(0, 40));
    if (!name.test(at.name)) continue;
    expect(at, at.name).toMatchObject({ ring: 'solid', seen: true });
    await page.keyboard.press('Enter');
    return;
  }
  throw new Error(`${name} was not reached; met ${[...new Set(met)].join(' | ')}`);
}

/** Turns to a page by the contents. */
async function turnTo(phone: Phone, page: RegExp): Promise<void> {
  await reach(phone, /^Contents$/, 'Shift+Tab');
  await reach(phone, page);
  await phone.page.locator('main h1').filter({ hasText: page }).waitFor();
}

test('a test is noted, and each page read, by keyboard alone', async () => {
  const phone = await begun();
  const { page } = phone;
  await phone.open();
  await phone.button('Draw my loop').waitFor();
  await reach(phone, /^Look around/);
  await page.locator('#walk').waitFor();
  await reach(phone, /^Note$/, 'Shift+Tab');
  await reach(phone, /^Fish tank$/);
  await reach(phone, /^Test the water$/);
  await reach(phone, /^pH$/);
  await page.keyboard.type('7');
  await reach(phone, /^Note/);
  await page.getByRole('status').filter({ hasText: 'Noted' }).waitFor();
  await page.keyboard.press('Escape');
  await phone.open('stream');
  await page.locator('#walk').waitFor();
  await turnTo(phone, /^Why/);
  await turnTo(phone, /^Ahead/);
  // The water to come is told on the phone itself.
  await page.getByText(/Tried on the last six weeks: of \d+ readings/).first().waitFor();
  expect(await page.locator('main section h3', { hasText: 'Oxygen' }).count()).toBeGreaterThan(0);
  await reach(phone, /^14 days$/);
  await page.locator('[aria-pressed=true]', { hasText: '14 days' }).waitFor();
  await turnTo(phone, /^Larder/);
  await turnTo(phone, /^Together/);
  expect(phone.complaints).toEqual([]);
});

test('names that nobody means are shown as they are, on every page, and do nothing', async () => {
  const phone = await begun();
  const { page } = phone;
  await bare(page, server.origin, join(import.meta.dirname, 'strange.ts'), 'strange');
  const ids = await page.evaluate(() => (globalThis as unknown as { strange: typeof Strange }).strange.fill());
  await page.setViewportSize({ width: 320, height: 640 });
  await phone.open('stream');
  await page.locator('#walk').waitFor();
  const wrong: string[] = [];
  for (const { name, route, press } of pages) {
    await phone.open(route.replace(/\{(\w+)\}/, (_, id: keyof typeof ids) => ids[id]));
    await page.locator('main h1, main h2').first().waitFor({ state: 'attached' });
    for (const key of press ?? []) await page.click(key);
    await page.evaluate(() => new Promise((drawn) => setTimeout(() => requestAnimationFrame(drawn), 150)));
    wrong.push(...(await page.evaluate(() => {
      const made = document.querySelectorAll('main script, main img[src="x"], main [onerror]').length;
      const wide = document.documentElement.scrollWidth - innerWidth;
      const beyond = [...document.querySelectorAll('body *')].filter((e) => e.getBoundingClientRect().right > innerWidth + 0.5);
      const inmost = beyond.filter((e) => !beyond.some((o) => o !== e && e.contains(o))).map((e) => e.outerHTML.slice(0, 120));
      return [...('pwned' in globalThis ? ['a name ran'] : []), ...(made ? [`${made} elements out of names`] : []), ...(wide > 0 ? [`${wide} px too wide: ${inmost.slice(0, 2).join(' and ')}`] : [])];
    })).map((what) => `${name}: ${what}`));
  }
  expect(wrong).toEqual([]);
  await phone.open('stream');
  await page.getByText(`<img src=x onerror=globalThis.pwned=1>`).first().waitFor();
  expect(phone.complaints).toEqual([]);
});

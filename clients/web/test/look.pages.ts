// Looks at every page in every way: no finding of axe, nothing to press that is
// too small, nothing wider than the phone. Pictures go where FRESHET_SCREENS says.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';

import { chromium, type Browser, type Page } from 'playwright-core';
import { createServer, type ViteDevServer } from 'vite';
import { afterAll, beforeAll, expect, test } from 'vitest';

import { pages, views, type Looked, type View } from './pages';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const pictures = process.env['FRESHET_SCREENS'];
let server: ViteDevServer;
let browser: Browser;
let origin = '';
/** A page of its own in which pictures are made smaller. */
let press: Page;

beforeAll(async () => {
  server = await createServer({ server: { port: 0, host: '127.0.0.1', hmr: false, watch: null }, logLevel: 'error' });
  await server.listen();
  origin = server.resolvedUrls!.local[0]!;
  browser = await chromium.launch({ executablePath: process.env['FRESHET_CHROMIUM'] ?? '/usr/bin/chromium', args: ['--no-sandbox'] });
  press = await browser.newPage();
}, 120_000);

afterAll(async () => {
  await browser?.close();
  await server?.close();
}, 60_000);

/** A browser that nobody used before, at noon or in the evening. */
async function fresh({ width, height, language = 'en', light = 'day' }: View): Promise<Page> {
  const context = await browser.newContext({ viewport: { width, height }, locale: language === 'es' ? 'es-MX' : 'en-US', colorScheme: light === 'night' ? 'dark' : 'light' });
  const page = await context.newPage();
  await page.clock.setFixedTime(new Date(2026, 4, 20, light === 'night' ? 22 : 12));
  await page.goto(origin, { timeout: 120_000 });
  return page;
}

async function open(view: View): Promise<Page> {
  const { width, height, language = 'en', units = 2, light = 'day' } = view;
  const context = await browser.newContext({ viewport: { width, height }, locale: language === 'es' ? 'es-MX' : 'en-US' });
  await context.addInitScript((habits) => localStorage.setItem('freshet.habits', habits), JSON.stringify({ language, units, light, siteId: '' }));
  // The barn's page stands in a folder of its own; the invented figures do not.
  await context.route('**/test/invented*', (route) => route.continue({ url: route.request().url().replace('/test/', '/') }));
  const page = await context.newPage();
  await page.goto(origin + 'test/barn.html', { timeout: 120_000 });
  await page.waitForSelector('#walk', { timeout: 120_000 });
  return page;
}

/** Ids of a tank, a bed, a group of fish and a trial, as the pages link to them. */
async function ids(page: Page): Promise<Record<string, string>> {
  const idIn = (href: string | null): string => href?.split('/')[2] ?? '';
  const tank = idIn(await page.locator('.stretch a.head').first().getAttribute('href'));
  const bed = idIn(await page.locator('.row a').first().getAttribute('href'));
  await page.evaluate(() => (location.hash = '#/ahead'));
  const fish = idIn(await page.locator('a[href^="#/fish/"]').first().getAttribute('href'));
  await page.evaluate(() => (location.hash = '#/together'));
  const trial = idIn(await page.locator('a[href^="#/trial/"]').first().getAttribute('href'));
  return { tank, bed, fish, trial };
}

async function turnTo(page: Page, looked: Looked, at: Record<string, string>, view: View): Promise<void> {
  const route = looked.route.replace(/\{(\w+)\}/, (_, name: string) => at[name] ?? '');
  await page.evaluate((which) => localStorage.setItem('freshet.notebook', which), looked.among ? 'invented' : 'own');
  await page.evaluate((hash) => (location.hash = hash), '#/' + route);
  await page.waitForSelector('main h1, main h2', { state: 'attached' });
  if (looked.waits) await page.waitForSelector(looked.waits, { timeout: 120_000 });
  await page.waitForFunction(() => document.fonts.ready.then(() => true));
  await enlarge(page, view);
  for (const press of looked.press ?? []) await page.click(press);
  await page.evaluate(quiet);
}

/** Waits until the page has stood still for a while: what it reads is drawn. */
const quiet = (): Promise<void> =>
  new Promise((still) => {
    const wait = (): number => window.setTimeout(() => requestAnimationFrame(() => (observer.disconnect(), still())), 350);
    let timer = wait();
    const observer = new MutationObserver(() => {
      clearTimeout(timer);
      timer = wait();
    });
    observer.observe(document.body, { subtree: true, childList: true, characterData: true, attributes: true });
  });

/** What a thumb could miss: pressed things below 48 px, but for links in the midst of a sentence. */
const tooSmall = (): string[] =>
  [...document.querySelectorAll<HTMLElement>('a, button, select, summary, input:not([type=file]), textarea')].flatMap((e) => {
    const r = e.getBoundingClientRect();
    const hidden = r.width < 2 || e.closest('.unseen, details:not([open]) > :not(summary)') !== null || getComputedStyle(e).visibility === 'hidden';
    const label = e.closest('label')?.getBoundingClientRect();
    return hidden || Math.max(r.height, label?.height ?? 0) >= 47.5 ? [] : [`${e.outerHTML.slice(0, 90)}: ${Math.round(r.height)} px high`];
  });

/** What a thumb cannot reach at the foot, which does not scroll: pressed things that end beyond the phone's edge. */
const cutOff = (): string[] =>
  [...document.querySelectorAll('footer a, footer button')].flatMap((e) => {
    const { left, right } = e.getBoundingClientRect();
    return left >= -0.5 && right <= innerWidth + 0.5 ? [] : [`${e.outerHTML.slice(0, 90)}: from ${Math.round(left)} to ${Math.round(right)} px of ${innerWidth}`];
  });

/** What makes a page wider than the phone: the innermost elements that reach beyond it. */
const tooWide = (): string[] => {
  const beyond = document.documentElement.scrollWidth - innerWidth;
  if (beyond <= 0) return [];
  const out = [...document.querySelectorAll('body *')].filter((e) => e.getBoundingClientRect().left + e.scrollWidth > innerWidth + 0.5);
  const inmost = out.filter((e) => !out.some((o) => o !== e && e.contains(o))).map((e) => e.outerHTML.slice(0, 90));
  return [`${beyond} px too wide: ${inmost.slice(0, 3).join(' and ')}`];
};

async function enlarge(page: Page, view: View): Promise<void> {
  if (view.letters) await page.evaluate((size) => (document.documentElement.style.fontSize = `${size * 1.125}%`), view.letters);
}

async function findings(page: Page, name: string): Promise<string[]> {
  await page.evaluate(axe);
  const found = await page.evaluate(async () => {
    const { violations } = await (window as unknown as { axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> } }).axe.run();
    return violations.map((v) => `${v.id}: ${v.nodes[0]?.html.slice(0, 120)}`);
  });
  const wide = await page.evaluate(tooWide);
  return [...found, ...(await page.evaluate(tooSmall)), ...(await page.evaluate(cutOff)), ...wide].map((f) => `${name}: ${f}`);
}

/** Keeps a picture as WebP: of words on paper it is a third of the size of others. */
async function picture(page: Page, view: View, name: string, whole = false): Promise<void> {
  if (!pictures) return;
  const folder = join(pictures, view.name);
  mkdirSync(folder, { recursive: true });
  const tall = whole ? Math.min(4200, await page.evaluate(() => document.documentElement.scrollHeight)) : view.height;
  if (whole) await page.setViewportSize({ width: view.width, height: tall });
  const png = (await page.screenshot()).toString('base64');
  if (whole) await page.setViewportSize({ width: view.width, height: view.height });
  const webp = await press.evaluate(async (base64) => {
    const image = await createImageBitmap(await (await fetch(`data:image/png;base64,${base64}`)).blob());
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [image.width, image.height];
    canvas.getContext('2d')!.drawImage(image, 0, 0);
    return canvas.toDataURL('image/webp', 0.5).split(',')[1]!;
  }, png);
  writeFileSync(join(folder, `${name}.webp`), Buffer.from(webp, 'base64'));
}

test.each(views)('$name', async (view) => {
  const page = await open(view);
  const at = await ids(page);
  const found: string[] = [];
  for (const looked of pages.filter((p) => !view.print || p.prints)) {
    if (view.print) await page.emulateMedia({ media: 'print' });
    await turnTo(page, looked, at, view);
    if (view.judged) found.push(...(await findings(page, looked.name)));
    await picture(page, view, looked.name, view.print);
    if (looked.whole && view.name === 'phone') await picture(page, view, looked.name + '-whole', true);
  }
  await page.context().close();
  expect(found).toEqual([]);
}, 600_000);

test.each(views.filter((v) => !v.print))('$name, before anything is noted', async (view) => {
  const page = await fresh(view);
  const found: string[] = [];
  const look = async (name: string): Promise<void> => {
    await page.waitForFunction(() => document.fonts.ready.then(() => true));
    await enlarge(page, view);
    await page.evaluate(quiet);
    if (view.judged) found.push(...(await findings(page, name)));
    await picture(page, view, name);
  };
  await page.waitForSelector('.cover .ink', { timeout: 120_000 });
  await look('cover');
  await page.click('.cover .ink');
  await page.waitForSelector('fieldset', { timeout: 120_000 });
  await look('draw');
  await page.context().close();
  expect(found).toEqual([]);
}, 600_000);

// Entries in an own notebook: how long until "noted", and whether it is there after
// the tab was killed right then.
import { expect } from 'vitest';

import type { Phone } from '../e2e/phone';
import { spread, type Row } from './figures';

/** How often a thumb comes down for a usual entry, from the place on, its digits aside. */
async function taps(phone: Phone): Promise<Row[]> {
  await phone.open('note');
  await phone.page.getByRole('link', { name: 'Fish tank', exact: true }).click();
  await phone.page.evaluate(() => {
    const counted = globalThis as unknown as { taps: number };
    counted.taps = 0;
    addEventListener('click', (e) => e.isTrusted && counted.taps++, true);
  });
  await phone.page.getByRole('link', { name: 'Test the water', exact: true }).first().click();
  await phone.button('pH').click();
  await phone.button('7').click();
  await phone.noting(phone.page.getByRole('group', { name: 'Keys' }).locator('button.ink'));
  const all = await phone.page.evaluate(() => (globalThis as unknown as { taps: number }).taps);
  return [['taps for a test of the water, from its place until "noted", beside its digit', String(all - 1), '3']];
}

/** Letters that a quick thumb writes, one each so many ms. */
const letterMs = 100;

/**
 * Notes so many entries, each the first of a tab that is killed then. The first few are timed on a slowed
 * phone: by turns written as a quick thumb writes, and there at once while the app still opens.
 */
export async function killed(phone: Phone, times: number): Promise<Row[]> {
  await phone.open();
  await phone.drawLoop('Weir End');
  const tapped = await taps(phone);
  await phone.open('note');
  const tank = (await phone.page.getByRole('link', { name: 'Fish tank', exact: true }).getAttribute('href'))!.split('/')[2]!;
  const slowed = Math.min(times, 40);
  const written: number[] = [];
  const atOnce: number[] = [];
  for (let i = 0; i < times; i++) {
    await phone.open(`note/${tank}/note`);
    if (i < slowed) await phone.slow();
    const words = phone.page.locator('textarea');
    if (i < slowed && i % 2 === 0) await words.pressSequentially(`killed ${i}.`, { delay: letterMs });
    else await words.fill(`killed ${i}.`);
    const ms = await phone.page.evaluate(() => new Promise<number>((noted) => {
      const from = performance.now();
      new MutationObserver((_, observer) => {
        if (!document.querySelector('[role=status] p span')?.textContent?.startsWith('Noted')) return;
        observer.disconnect();
        noted(performance.now() - from);
      }).observe(document.body, { subtree: true, childList: true, characterData: true });
      document.querySelector<HTMLElement>('main button.ink')!.click();
    }));
    if (i < slowed) (i % 2 === 0 ? written : atOnce).push(ms);
    await phone.killTab();
  }
  const diary = await phone.diary(`killed ${times - 1}.`);
  const kept = Array.from({ length: times }, (_, i) => diary.some((line) => line.includes(`killed ${i}.`))).filter(Boolean).length;
  expect(kept).toBe(times);
  return [
    ...tapped,
    ['from the tap until "noted", on disk, slowed, first of a tab, written as a quick thumb writes', spread(written), '50 ms'],
    ['the same, there at once while the app still opens', spread(atOnce), '50 ms'],
    ['there after the tab was killed right after "noted"', `${kept} of ${times}`, '200 of 200'],
  ];
}

// How soon the app is there and heeds a thumb, and how a year of hours is drawn.
import type { Phone } from '../e2e/phone';
import { spread, type Row } from './figures';

interface Watched {
  /** Ends of what held the thread up for 50 ms or more. */
  held: number[];
}

/** Opens the app so many times without a network. */
export async function opening(phone: Phone, times: number, what: string): Promise<Row[]> {
  await phone.open('stream');
  await phone.page.locator('main h2').first().waitFor();
  await phone.kept();
  await phone.offline(true);
  await phone.page.addInitScript(() => {
    const watched: Watched = ((globalThis as unknown as { watched: Watched }).watched = { held: [] });
    new PerformanceObserver((list) => list.getEntries().forEach((e) => watched.held.push(e.startTime + e.duration))).observe({ type: 'longtask', buffered: true });
  });
  await phone.slow();
  const seen: number[] = [];
  const heeds: number[] = [];
  for (let i = 0; i < times; i++) {
    await phone.page.reload({ waitUntil: 'commit' });
    const content = await phone.page.evaluate(() => new Promise<number>((there) => {
      const look = (): void => void (document.querySelector('main h2') ? there(performance.now()) : requestAnimationFrame(look));
      look();
    }));
    // It heeds a thumb when nothing has held the thread up for a second.
    const heeded = await phone.page.evaluate((from) => new Promise<number>((quiet) => {
      const { watched } = globalThis as unknown as { watched: Watched };
      const look = (): void => {
        const last = Math.max(from, ...watched.held);
        if (performance.now() - last > 1000) quiet(last);
        else setTimeout(look, 100);
      };
      look();
    }), content);
    seen.push(content);
    heeds.push(heeded);
  }
  await phone.offline(false);
  return [[`opened without a network on ${what}, slowed: content`, spread(seen), '1.0 s'], ['the same: heeds a thumb', spread(heeds), '1.5 s']];
}

/** Turns to a year of a probe's hours, and pans through it. */
export async function chart(phone: Phone, times: number): Promise<Row[]> {
  await phone.open('stream');
  const tank = (await phone.page.locator('.stretch a.head').first().getAttribute('href'))!.split('/')[2]!;
  const drawn: number[] = [];
  const strokes: number[] = [];
  for (let i = 0; i < times; i++) {
    await phone.open('contents');
    await phone.page.locator('main h1').waitFor();
    drawn.push(await phone.page.evaluate((hash) => new Promise<number>((there) => {
      const from = performance.now();
      location.hash = hash;
      const look = (): void => void ((document.querySelector('canvas')?.width ?? 0) > 0 && document.querySelector('.spans') ? requestAnimationFrame(() => there(performance.now() - from)) : requestAnimationFrame(look));
      look();
    }), `#/why/reading/1/${tank}`));
    strokes.push(await phone.page.evaluate(() => new Promise<number>((there) => {
      const spans = document.querySelectorAll<HTMLButtonElement>('.spans button');
      spans[0]!.click();
      requestAnimationFrame(() => requestAnimationFrame(() => {
        const from = performance.now();
        spans[spans.length - 1]!.click(); // all of it
        queueMicrotask(() => setTimeout(() => there(performance.now() - from)));
      }));
    })));
  }
  const frames = await phone.page.evaluate(() => new Promise<number>((counted) => {
    document.querySelectorAll<HTMLButtonElement>('.spans button')[1]!.click(); // a month
    const canvas = document.querySelector('canvas')!;
    const point = (type: string, clientX: number): void => void canvas.dispatchEvent(new PointerEvent(type, { clientX, clientY: 100, pointerId: 1, bubbles: true, isPrimary: true }));
    canvas.setPointerCapture = () => undefined;
    point('pointerdown', 40);
    const from = performance.now();
    let n = 0;
    const next = (): void => {
      point('pointermove', 40 + 4 * ++n);
      if (performance.now() - from < 2000) requestAnimationFrame(next);
      else counted(n / 2);
    };
    requestAnimationFrame(next);
  }));
  return [
    ['a year of hourly readings, slowed: from the tap until it is read and drawn', spread(drawn), ''],
    ['the same drawn anew, all of it', spread(strokes), '100 ms'],
    ['the same, panned by a month: frames a second', frames.toFixed(0), 'over 50'],
  ];
}

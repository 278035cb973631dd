// A phone: a browser with a profile of its own, which a person taps.
import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

import { chromium, type BrowserContext, type CDPSession, type Locator, type Page, type Route } from 'playwright-core';

/** How long something may take, ms, before it counts as never: however slow the machine is. */
export const patience = 120_000;

export class Phone {
  /** What the page complained of: refused by its policy, or thrown. */
  readonly complaints: string[] = [];
  page!: Page;

  private readonly profile = mkdtempSync(join(tmpdir(), 'freshet-phone-'));
  private context!: BrowserContext;
  private keeper: CDPSession | undefined;

  constructor(readonly origin: string) {}

  /** Starts the browser, also after it was killed. */
  async start(): Promise<void> {
    this.context = await chromium.launchPersistentContext(this.profile, {
      executablePath: process.env['FRESHET_CHROMIUM'] ?? '/usr/bin/chromium', args: ['--no-sandbox', '--use-fake-device-for-media-stream'], // a camera that nobody allowed
      viewport: { width: 390, height: 844 }, locale: 'en-GB', timezoneId: 'America/Chicago',
    });
    this.context.setDefaultTimeout(patience);
    this.page = this.context.pages()[0] ?? (await this.context.newPage());
    this.heed(this.page);
  }

  private heed(page: Page): void {
    page.on('pageerror', (error) => this.complaints.push(error.message));
    page.on('console', (line) => {
      if (/Content Security Policy|Content-Security-Policy/.test(line.text())) this.complaints.push(line.text());
    });
  }

  /** Opens a page of the app by its name. */
  async open(path = ''): Promise<void> {
    await this.page.goto(`${this.origin}/#/${path}`);
  }

  /** A phone that is set up from this one's backup; this one must be off. */
  copy(): Phone {
    const other = new Phone(this.origin);
    cpSync(this.profile, other.profile, { recursive: true, filter: (from) => !/\/Singleton\w+$/.test(from) });
    return other;
  }

  /** Another tab of this phone, beside the one that is open. */
  async tab(): Promise<Phone> {
    const other = Object.create(this) as Phone;
    other.page = await this.context.newPage();
    this.heed(other.page);
    return other;
  }

  /** Answers calls of the server as something in between would, until it is stopped. */
  async between(answer: (route: Route) => Promise<void>): Promise<() => Promise<void>> {
    await this.context.route('**/freshet.v1.*/*', answer);
    // A call may still be under way; the browser then ends it by itself.
    return () => this.context.unrouteAll({ behavior: 'ignoreErrors' });
  }

  /** Gives the app so much room to keep things, bytes; without a number what the browser gives. */
  async room(quotaSize?: number): Promise<void> {
    const session = (this.keeper ??= await this.context.newCDPSession(this.page)); // it holds as long as the session
    await session.send('Storage.overrideQuotaForOrigin', { origin: this.origin, ...(quotaSize !== undefined && { quotaSize }) });
  }

  /** Kills the tab right now and opens another. */
  async killTab(): Promise<void> {
    const old = this.page;
    this.page = await this.context.newPage();
    await old.close({ runBeforeUnload: false });
    this.heed(this.page);
  }

  /** As a phone four times as slow as this machine. */
  async slow(): Promise<void> {
    const session = await this.context.newCDPSession(this.page);
    await session.send('Emulation.setCPUThrottlingRate', { rate: 4 });
  }

  async offline(is: boolean): Promise<void> {
    await this.context.setOffline(is);
  }

  button(name: string | RegExp): Locator {
    return this.page.getByRole('button', { name, exact: typeof name === 'string' });
  }

  /** Waits until the app is kept for when there is no network. */
  async kept(): Promise<void> {
    await this.page.evaluate(async () => {
      await navigator.serviceWorker.ready;
      while (!(await caches.match('/served-version'))) await new Promise((again) => setTimeout(again, 100));
    });
  }

  async join(code: string, person = ''): Promise<void> {
    await this.open(`join/${code}`);
    if (person) await this.page.getByLabel('Your name, as the others see it').fill(person);
    await this.button('Join').click();
    await this.page.getByText(/Last heard from the cooperative/).waitFor();
    await this.send();
  }

  /** Draws a loop of three vessels. */
  async drawLoop(place: string): Promise<void> {
    await this.open('stream');
    await this.button('Draw my loop').click();
    await this.page.getByLabel('What do you call the place?').fill(place);
    for (const litres of ['2000', '300', '400']) {
      await this.page.getByLabel(/^Water it holds/).fill(litres);
      await this.button('Draw it').click();
    }
    await this.button('The water goes back: done').click();
    await this.page.locator('#walk').waitFor(); // the drawing has the same headings
  }

  /** Goes to where something is noted: a place, then what. */
  async turnTo(place: string, kind: string): Promise<void> {
    await this.open('note');
    await this.page.getByRole('link', { name: place, exact: true }).click();
    await this.page.getByRole('link', { name: kind, exact: true }).first().click();
  }

  /** Presses what notes something, and waits until it says "Noted": of this, not of what was noted before. */
  async noting(press: Locator): Promise<void> {
    await press.waitFor();
    const said = this.page.evaluate(() => new Promise<void>((noted) => {
      new MutationObserver((changes, observer) => {
        const added = changes.flatMap((c) => [...c.addedNodes]);
        if (!added.some((n) => (n instanceof Element ? n : n.parentElement)?.closest('.said p'))) return;
        observer.disconnect();
        noted();
      }).observe(document.body, { childList: true, subtree: true });
    }));
    await Promise.all([said, press.click()]);
  }

  /** Notes one test of the water, digit by digit. */
  async noteReading(place: string, quantity: string, digits: string): Promise<void> {
    await this.turnTo(place, 'Test the water');
    await this.button(quantity).click();
    for (const digit of digits) await this.button(digit).click();
    await this.noting(this.page.getByRole('group', { name: 'Keys' }).locator('button.ink'));
  }

  async noteWords(place: string, words: string): Promise<void> {
    await this.turnTo(place, 'A note');
    await this.page.locator('textarea').fill(words);
    await this.noting(this.page.locator('main button.ink'));
  }

  /** Writes another name over a vessel's. */
  async rename(vessel: string, name: string): Promise<void> {
    await this.open('build');
    await this.page.getByRole('link', { name: vessel }).first().click();
    await this.page.locator('form input').first().fill(name);
    await this.noting(this.page.locator('form button.ink'));
  }

  /** Reaches the cooperative: what waits is sent, and what is new there is read. */
  async send(): Promise<void> {
    await this.open('phone');
    const before = (await this.contact()).lastContactMs;
    const begun = new Set<number>();
    const ends = Date.now() + patience;
    // When a second round has begun, the first has ended.
    while (begun.size < 2) {
      // While it talks the button is shut. That is no trouble: it is pressed to be quicker than the app's own timer.
      await this.button('Try now').click({ timeout: 500 }).catch(() => undefined);
      const { waiting, lastContactMs } = await this.contact();
      if (waiting === 0 && lastContactMs !== before) begun.add(lastContactMs);
      if (Date.now() > ends) throw new Error(`${waiting} entries wait`);
    }
    await this.page.locator('p.wait').getByText(/Nothing waits on this phone|picture is only on this phone/).waitFor(); // which tells of pictures when no entry waits
  }

  /** How the device stands towards the cooperative, as it is on disk. */
  private contact(): Promise<{ waiting: number; lastContactMs: number }> {
    return this.page.evaluate(async () => {
      const done = <T>(request: IDBRequest<T>): Promise<T> => new Promise((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error!);
      });
      const db = await done(indexedDB.open('freshet-own'));
      const facts = db.transaction('facts').objectStore('facts');
      const [next = 1, through = 0, lastContactMs = 0] = (await Promise.all(['next', 'through', 'lastContactMs'].map((name) => done(facts.get(name))))) as (number | undefined)[];
      db.close();
      return { waiting: next - 1 - through, lastContactMs };
    });
  }

  /** How many entries of the copy, what the cooperative stored and sent back, hold these words, whatever their day. */
  copied(words: string): Promise<number> {
    return this.page.evaluate(async (text) => {
      const done = <T>(request: IDBRequest<T>): Promise<T> => new Promise((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error!);
      });
      const db = await done(indexedDB.open('freshet-own'));
      const events = (await done(db.transaction('events').objectStore('events').getAll())) as { body: Uint8Array }[];
      db.close();
      return events.filter((e) => new TextDecoder().decode(e.body).includes(text)).length;
    }, words);
  }

  /** Waits until the page says that so many entries are only here. */
  async waits(entries: number): Promise<void> {
    await this.open('phone');
    await this.page.locator('main').getByText(`${entries} ${entries === 1 ? 'entry' : 'entries'} only on this phone`).waitFor();
  }

  /** What the diary reads, a line an entry, once all of these are among them. */
  async diary(first: string, ...more: string[]): Promise<string[]> {
    await this.open('diary');
    const lines = this.page.locator('main summary');
    for (const words of [first, ...more]) await lines.filter({ hasText: words }).first().waitFor();
    return lines.allInnerTexts();
  }

  async end(): Promise<void> {
    await this.context?.close();
  }

  async remove(): Promise<void> {
    await this.end();
    rmSync(this.profile, { recursive: true, force: true });
  }
}

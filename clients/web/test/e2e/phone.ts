// A phone: a browser with a profile of its own, which a person taps.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

import { chromium, type BrowserContext, type Locator, type Page } from 'playwright-core';

export class Phone {
  /** What the page complained of: refused by its policy, or thrown. */
  readonly complaints: string[] = [];
  page!: Page;

  private readonly profile = mkdtempSync(join(tmpdir(), 'freshet-phone-'));
  private context!: BrowserContext;

  constructor(readonly origin: string) {}

  /** Starts the browser, also after it was killed. */
  async start(): Promise<void> {
    this.context = await chromium.launchPersistentContext(this.profile, {
      executablePath: process.env['FRESHET_CHROMIUM'] ?? '/usr/bin/chromium', args: ['--no-sandbox'],
      viewport: { width: 390, height: 844 }, locale: 'en-GB', timezoneId: 'America/Chicago',
    });
    this.context.setDefaultTimeout(30_000);
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
    await this.page.getByRole('heading', { name: 'Fish tank' }).waitFor();
  }

  /** Goes to where something is noted: a place, then what. */
  async turnTo(place: string, kind: string): Promise<void> {
    await this.open('note');
    await this.page.getByRole('link', { name: place, exact: true }).click();
    await this.page.getByRole('link', { name: kind, exact: true }).first().click();
  }

  /** Notes one test of the water, digit by digit; a strange one is meant. */
  async noteReading(place: string, quantity: string, digits: string): Promise<void> {
    await this.turnTo(place, 'Test the water');
    await this.button(quantity).click();
    for (const digit of digits) await this.button(digit).click();
    await this.page.getByRole('group', { name: 'Keys' }).locator('button.ink').click();
    await this.page.getByText(/^Noted: /).waitFor();
  }

  async noteWords(place: string, words: string): Promise<void> {
    await this.turnTo(place, 'A note');
    await this.page.locator('textarea').fill(words);
    await this.page.locator('main button.ink').click();
    await this.page.getByText(/^Noted: /).waitFor();
  }

  /** Writes another name over a vessel's. */
  async rename(vessel: string, name: string): Promise<void> {
    await this.open('build');
    await this.page.getByRole('link', { name: vessel }).first().click();
    await this.page.locator('form input').first().fill(name);
    await this.page.locator('form button.ink').click();
    await this.page.getByText(/^Noted: /).waitFor();
  }

  /** Tries to reach the cooperative until nothing waits. */
  async send(): Promise<void> {
    await this.open('phone');
    await this.button(/Try now|Talking/).waitFor();
    for (let i = 0; i < 30 && !(await this.page.getByText('Nothing waits on this phone').isVisible()); i++) {
      const now = this.button('Try now');
      if (await now.isEnabled().catch(() => false)) await now.click().catch(() => undefined);
      await this.page.waitForTimeout(500);
    }
    await this.page.getByText('Nothing waits on this phone').waitFor();
  }

  /** Waits until the page says that so many entries are only here. */
  async waits(entries: number): Promise<void> {
    await this.open('phone');
    await this.page.locator('main').getByText(`${entries} ${entries === 1 ? 'entry' : 'entries'} only on this phone`).waitFor();
  }

  /** Everything that the diary reads. */
  async diary(): Promise<string> {
    await this.open('diary');
    await this.page.getByRole('heading', { name: 'Diary' }).waitFor();
    await this.page.waitForTimeout(300);
    return this.page.locator('main').innerText();
  }

  async end(): Promise<void> {
    await this.context?.close();
  }

  async remove(): Promise<void> {
    await this.end();
    rmSync(this.profile, { recursive: true, force: true });
  }
}

// What every page has at hand: the device, the words, the open notebook, the formulas.
import { getContext, setContext } from 'svelte';

import { readBook, type Book } from './book/book';
import { readLater, type Later } from './book/later';
import type { Device, Noted, Status, Stop, Trouble } from './device/device';
import { UnitSystem } from './gen/freshet/v1/member_pb';
import { loadHusbandry } from './husbandry/load';
import type { Husbandry } from './husbandry/husbandry';
import { reckon } from './reckon/reckoning';
import { tasks } from './stream/tasks';
import { forgetAll } from './together/figures';
import { en } from './words/en';
import { Say } from './words/say';
import { wordsFor, type Language, type Words } from './words/words';

/** What a person chose on this phone. */
export interface Habits {
  language: Language;
  units: UnitSystem;
  /** Empty: by the clock and the phone's own setting. */
  light: '' | 'day' | 'night';
  siteId: string;
}

const key = 'freshet.habits';

// A page that nobody looks at is not drawn: its notebook is read on after so long.
const hiddenMs = 300;

export class Desk {
  /** The notebook that is open; undefined while there is none. */
  book = $state.raw<Book>();
  status = $state.raw<Status>();
  /** The formulas, once they are loaded. */
  husbandry = $state.raw<Husbandry>();
  habits = $state<Habits>(remembered());
  sites = $state.raw<{ id: string; name: string }[]>([]);
  /** Whether the device was read at all. */
  read = $state(false);
  /** What was just noted, while it can be taken back. */
  just = $state.raw<{ words: string; noted: Noted }>();

  /** Why what was just entered could not be kept; undefined where nothing went wrong. */
  unkept = $state.raw<Trouble>();

  /** What takes longer to read. */
  later = $state.raw<Later>();

  private make = $state.raw<(say: Say) => Words>(en);
  readonly say: Say = $derived(new Say(this.habits.language, this.habits.units, this.book?.site.timeZone || 'UTC', () => this.device.now()));
  readonly t: Words = $derived(this.make(this.say));

  /** The zone's offset now, ms. */
  readonly shift: number = $derived(this.book ? this.say.shift(this.book.now) : 0);
  readonly reckoning = $derived(this.husbandry && this.book?.whole ? reckon(this.husbandry.ask, this.book, this.later, this.shift) : undefined);
  readonly tasks = $derived(this.book && this.reckoning ? tasks(this.book, this.later, this.reckoning, this.shift) : []);

  private reading: Stop = () => undefined;
  private opened = '';

  constructor(readonly device: Device) {}

  /** Reads the device from now on, until it is stopped. */
  begin(): Stop {
    // The place that was open last is most likely there: it is read at once.
    if (this.habits.siteId) this.open(this.habits.siteId);
    const stops = [
      this.device.live(
        (view) => view.records('site'),
        (sites) => {
          this.sites = sites.map((s) => ({ id: s.id, name: s.value.name }));
          this.open(this.sites.find((s) => s.id === this.habits.siteId)?.id ?? this.sites[0]?.id ?? '');
          this.read ||= this.sites.length === 0;
        },
      ),
      this.device.liveStatus((status) => {
        this.status = status;
        if (status.trouble?.reason === 'MEMBER_LEFT') forgetAll();
      }),
    ];
    return () => [...stops, this.reading].forEach((stop) => stop());
  }

  /** Opens a site's notebook. */
  open(siteId: string): void {
    if (siteId === this.opened) return;
    this.opened = siteId;
    this.habits.siteId = siteId;
    this.reading();
    this.reading = this.device.live(
      (view) => readBook(view, siteId, this.device.now(), (first) => this.show(first)),
      (book) => {
        this.book = book;
        if (!book) return; // which places there are says what is open then
        this.read = true;
        afterPaint(() => void this.readOn(book));
      },
    );
  }

  /** Shows a notebook that was only begun to be read, where no other is open. */
  private async show(first: Book): Promise<void> {
    if (this.book?.site.id === first.site.id) return;
    this.book = first;
    this.read = true;
    await new Promise<void>((drawn) => (afterPaint(drawn), setTimeout(drawn, hiddenMs)));
  }

  /** Loads the formulas; without a network the first time, it tries again when there is one. */
  async think(): Promise<void> {
    try {
      this.husbandry = await loadHusbandry();
    } catch {
      addEventListener('online', () => void this.think(), { once: true });
    }
  }

  private async readOn(book: Book): Promise<void> {
    if (this.book !== book) return;
    const later = await this.device.once((view) => readLater(view, book, this.shift));
    if (this.book === book) this.later = later;
  }

  /** Changes the language, once its words are there. */
  async speak(language: Language): Promise<void> {
    this.make = await wordsFor(language);
    this.habits.language = language;
    document.documentElement.lang = language;
    this.keep();
  }

  keep(): void {
    localStorage.setItem(key, JSON.stringify(this.habits));
  }
}

/** Does something once what was read is drawn. */
export function afterPaint(work: () => void): void {
  requestAnimationFrame(() => setTimeout(work));
}

function remembered(): Habits {
  const own: Habits = {
    language: navigator.language.startsWith('es') ? 'es' : 'en',
    units: navigator.language === 'en-US' ? UnitSystem.US_CUSTOMARY : UnitSystem.METRIC,
    light: '',
    siteId: '',
  };
  try {
    return { ...own, ...(JSON.parse(localStorage.getItem(key) ?? '{}') as Partial<Habits>) };
  } catch {
    return own; // something else wrote there, or storage is shut
  }
}

const name = Symbol('desk');

export const layOut = (desk: Desk): Desk => setContext(name, desk);

export const useDesk = (): Desk => getContext<Desk>(name);

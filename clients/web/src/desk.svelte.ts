// What every page has at hand: the device, the words, the open notebook, the formulas.
import { getContext, setContext } from 'svelte';

import { readBook, type Book } from './book/book';
import { readLater, type Later } from './book/later';
import { breath } from './device/breath';
import type { Device, Noted, Status, Stop, Trouble } from './device/device';
import { UnitSystem } from './gen/freshet/v1/member_pb';
import { loadHusbandry } from './husbandry/load';
import type { Husbandry } from './husbandry/husbandry';
import { reckon, type Reckoning } from './reckon/reckoning';
import { afterPaint } from './shell/paint';
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

  /** What follows from the notebook that is open; undefined until the formulas are loaded and all of it is read. */
  reckoning = $state.raw<Reckoning>();

  private make = $state.raw<(say: Say) => Words>(en);
  readonly say: Say = $derived(this.sayAt(this.book));
  readonly t: Words = $derived(this.make(this.say));

  /** The zone's offset now, ms. */
  readonly shift: number = $derived(this.book ? this.say.shift(this.book.now) : 0);
  readonly tasks = $derived(this.book && this.reckoning ? tasks(this.book, this.later, this.reckoning, this.shift) : []);

  private reading: Stop = () => undefined;
  private opened = '';
  /** The notebook as it was read last, whole; it may not be laid open yet. */
  private newest: Book | undefined;
  private laid = 0;

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
    this.newest = undefined;
    this.reading();
    this.reading = this.device.live(
      (view) => readBook(view, siteId, this.device.now(), (first) => this.begun(first)),
      (book) => {
        this.newest = book;
        if (book) void this.lay(book, this.later).then(() => afterPaint(() => void this.readOn(book)));
        else this.show(undefined); // which places there are says what is open then
      },
    );
    this.keep(); // it is read first the next time
  }

  /** Lays a notebook open with what follows from it: reckoned first, in steps, and then both drawn at once. */
  private async lay(book: Book, later: Later | undefined): Promise<void> {
    const turn = ++this.laid;
    const reckoning = this.husbandry && (await reckon(this.husbandry.ask, book, later, this.sayAt(book).shift(book.now)));
    await breath();
    if (this.newest !== book || turn !== this.laid) return;
    this.show(book, later, reckoning);
  }

  private sayAt(book: Book | undefined): Say {
    return new Say(this.habits.language, this.habits.units, book?.site.timeZone || 'UTC', () => this.device.now());
  }

  private show(book: Book | undefined, later?: Later, reckoning?: Reckoning): void {
    this.book = book;
    this.later = later;
    this.reckoning = reckoning;
    this.read ||= book !== undefined;
  }

  /** Shows a notebook that was only begun to be read, where no other is open. */
  private async begun(first: Book): Promise<void> {
    if (this.book?.site.id === first.site.id) return;
    this.show(first);
    await new Promise<void>((drawn) => (afterPaint(drawn), setTimeout(drawn, hiddenMs)));
  }

  /** Loads the formulas; without a network the first time, it tries again when there is one. */
  async think(): Promise<void> {
    try {
      this.husbandry = await loadHusbandry();
    } catch {
      addEventListener('online', () => void this.think(), { once: true });
      return;
    }
    if (this.newest) await this.lay(this.newest, this.later);
  }

  private async readOn(book: Book): Promise<void> {
    if (this.newest !== book) return;
    const later = await this.device.once((view) => readLater(view, book, this.shift));
    if (this.newest === book) await this.lay(book, later);
  }

  /** Changes the language, once its words are there. */
  async speak(language: Language): Promise<void> {
    this.make = await wordsFor(language);
    this.habits.language = language;
    document.documentElement.lang = language;
    this.keep();
  }

  keep(): void {
    try {
      localStorage.setItem(key, JSON.stringify(this.habits));
    } catch {
      // full, or shut: next time it is as on a new phone
    }
  }
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

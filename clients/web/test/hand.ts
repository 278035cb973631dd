// A device in a page, by the app’s own parts, that notes and fetches as fast as it
// can: a phone’s hand for benches and for tests of lines. Its notebook is the app's, if it is named so.
import { callsOf } from '../src/device/calls';
import { contact } from '../src/device/contact';
import { thisMachine } from '../src/device/clock';
import { openDatabase, type Database } from '../src/device/database';
import type { Draft } from '../src/device/draft';
import { fact } from '../src/device/facts';
import type { Install } from '../src/device/ids';
import { join } from '../src/device/join';
import { enterInto, ownInstall } from '../src/device/open';
import { bearerOf } from '../src/device/renew';
import { readStatus } from '../src/device/status';
import { Method, Quantity, Unit } from '../src/gen/freshet/v1/reading_pb';
import { VesselKind } from '../src/gen/freshet/v1/vessel_pb';

const hour = 3_600_000;

/** What the probes of a vessel read each hour: quantity, unit, middle, swing, decimals. */
const probes: readonly [Quantity, Unit, number, number, number][] = [
  [Quantity.WATER_TEMPERATURE, Unit.CELSIUS, 25, 2, 1],
  [Quantity.PH, Unit.NONE, 7, 0.3, 2],
  [Quantity.DISSOLVED_OXYGEN, Unit.MG_PER_L, 6.2, 0.8, 1],
  [Quantity.AIR_TEMPERATURE, Unit.CELSIUS, 18, 6, 1],
];

export class Hand {
  private db!: Database;
  private install!: Install;
  private readonly clock = thisMachine();
  private siteId = '';
  private vessels: string[] = [];

  constructor(private readonly name: string) {}

  async join(code: string): Promise<void> {
    this.db = await openDatabase(this.name);
    this.install = await ownInstall(this.db);
    await join(this.db, { code, device: this.name, person: 'Ilka Fenn' });
  }

  /** Invites another phone of the same member. */
  async invite(): Promise<string> {
    return (await callsOf(await fact(this.db, 'address'), bearerOf(this.db, this.clock)).account.createInvitation({})).code;
  }

  /** Notes a site with a loop of three vessels. */
  async settle(): Promise<void> {
    await this.enter((d) => {
      this.siteId = d.make('site', { name: 'Weir End', timeZone: 'America/Chicago', latitudeDegrees: 45, elevationM: 400 });
      const systemId = d.make('system', { name: 'Barn loop' }, this.siteId);
      const vessel = (name: string, kind: VesselKind, volumeL: number, flowsTo: string[]): string => d.make('vessel', { name, kind, volumeL, systemId, flowsTo, surfaceM2: 2 }, this.siteId);
      const sump = vessel('Pump tank', VesselKind.PUMP_TANK, 1500, []);
      const filter = vessel('Media filter', VesselKind.MEDIA_FILTER, 900, [sump]);
      this.vessels = [vessel('Fish tank', VesselKind.FISH_TANK, 6000, [filter]), filter, sump];
    });
  }

  /** Notes what the probes read in so many hours that end some hours ago. */
  async readings(count: number, endedHoursAgo: number): Promise<void> {
    const each = probes.length * this.vessels.length;
    const begins = Date.now() - (endedHoursAgo + Math.ceil(count / each)) * hour;
    for (let from = 0; from < count; from += 4800) {
      await this.enter((d) => {
        for (let i = from; i < Math.min(count, from + 4800); i++) {
          const [quantity, unit, middle, swing, decimals] = probes[i % probes.length]!;
          const h = Math.floor(i / each);
          const shaky = ((i * 7919) % 101) / 101 - 0.5;
          const value = middle + swing * (0.7 * Math.sin((2 * Math.PI * h) / 24) + 0.3 * Math.sin((2 * Math.PI * h) / 4000) + 0.2 * shaky);
          const placeId = this.vessels[Math.floor(i / probes.length) % this.vessels.length]!;
          d.note('reading', { quantity, unit, digits: BigInt(Math.round(value * 10 ** decimals)), decimals, placeId, method: Method.PROBE }, { siteId: this.siteId, at: begins + h * hour });
        }
      });
    }
  }

  /** Notes so many entries of a walk, one at a time: tests, feedings, words. */
  async walks(count: number): Promise<void> {
    const place = this.vessels[0]!;
    for (let i = 0; i < count; i++) {
      const when = { siteId: this.siteId, at: Date.now() - (count - i) * 60_000 };
      await this.enter((d) => {
        if (i % 3 === 0) d.note('feeding', { vesselId: place, massG: 300 + (i % 40) }, when);
        else if (i % 20 === 1) d.note('note', { aboutId: place, text: `walk ${i}` }, when);
        else d.note('reading', { quantity: Quantity.PH, unit: Unit.NONE, digits: BigInt(68 + (i % 7)), decimals: 1, placeId: place, method: Method.DROPS }, when);
      });
    }
  }

  private async enter(fill: (draft: Draft) => void): Promise<void> {
    await enterInto(this.db, this.clock, fill);
  }

  /** Sends and fetches until nothing waits; how long it took, ms. */
  async sync(): Promise<number> {
    const began = performance.now();
    do await contact(this.db, this.install, this.clock, { changed: () => undefined, busy: () => undefined, quiet: async () => undefined, emptied: async () => undefined }, new AbortController().signal);
    while ((await readStatus(this.db, false)).waiting > 0);
    return performance.now() - began;
  }

  /** Readings and other events in the copy. */
  async copied(): Promise<number> {
    const chunks = await this.db.getAll('readings');
    return chunks.reduce((sum, c) => sum + c.offsets.length, 0) + (await this.db.count('events'));
  }

  close(): void {
    this.db.close();
  }
}

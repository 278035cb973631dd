// Compares what a person reads on a device with what a history says.
import { equals, fromJson, toBinary, toJson } from '@bufbuild/protobuf';
import { timestampMs } from '@bufbuild/protobuf/wkt';

import { tally, type HerdEvent } from '../../src/book/herds';
import { hexOf } from '../../src/device/ids';
import { eventKinds, recordField, recordKinds } from '../../src/device/kinds';
import type { Entry } from '../../src/device/view';
import { EventSchema } from '../../src/gen/freshet/v1/change_pb';
import { spread, type Sight } from './history';
import type { Party } from './party';
import type { Player } from './player';

export async function sees(p: Player, d: Party, want: Sight): Promise<void> {
  const say = (words: string): void => void p.wrong.push(`${d.name}: ${words}`);
  const entries = await (await d.read()).events(eventKinds.filter((kind) => kind !== 'correction'));
  if (want.entries) seesEntries(p, want, entries, say);
  if (want.records) await seesRecords(p, d, want, say);
  for (const [cohort, wanted] of Object.entries(want.alive ?? {})) {
    const { alive, unexplained } = tally(entries.flatMap((e) => changes(e, p.idOf(cohort))));
    const left = want.unexplained?.[cohort] ?? 0;
    if (alive !== wanted || unexplained !== left) say(`${cohort} has ${alive} alive, ${unexplained} unexplained; want ${wanted} and ${left}`);
  }
  const waiting = await d.waiting();
  if (want.waiting !== undefined && waiting !== want.waiting) say(`${waiting} wait, want ${want.waiting}`);
  if (want.left) {
    const got = Object.fromEntries((await d.left()).map((l) => [d.numbers.get(l.number) ?? l.number, `${l.held ? 'held' : 'refused'} ${l.reason}`]));
    if (sorted(got) !== sorted(want.left)) say(`not stored are ${sorted(got)}, want ${sorted(want.left)}`);
  }
}

const sorted = (named: object): string => JSON.stringify(Object.entries(named).sort());

function seesEntries(p: Player, want: Sight, entries: readonly Entry[], say: (words: string) => void): void {
  const found = new Map(entries.map((e) => [e.id, e]));
  const got = [...p.noted.keys()].filter((label) => found.has(p.idOf(label))).sort();
  const wanted = spread(want.entries!).sort();
  if (got.join() !== wanted.join() || got.length !== entries.length) return say(`reads ${entries.length} entries, named ${got.join()}; want ${wanted.join()}`);
  for (const label of got) seesEntry(p, label, want, found.get(p.idOf(label))!, say);
}

function seesEntry(p: Player, label: string, want: Sight, e: Entry, say: (words: string) => void): void {
  const as = want.as?.[label];
  const entered = p.noted.get(label)!;
  const wanted = as ? p.event(as, timestampMs(entered.occurredAt!)) : entered;
  if (hexOf(toBinary(EventSchema, e.event)) !== hexOf(toBinary(EventSchema, wanted))) say(`reads ${label} as ${JSON.stringify(toJson(EventSchema, e.event))}, want ${JSON.stringify(toJson(EventSchema, wanted))}`);
  const at = want.entered?.[label];
  const settled = new Date(e.enteredMs).toISOString().replace(/\.\d+/, '');
  if (at && settled !== at) say(`${label} was entered ${settled}, want ${at}`);
  const more = want.more?.[label];
  if (more && !hexOf(toBinary(EventSchema, e.event)).includes(more)) say(`${label} has lost what a later release added`);
}

async function seesRecords(p: Player, d: Party, want: Sight, say: (words: string) => void): Promise<void> {
  const view = await d.read();
  const found = new Map((await Promise.all(recordKinds.map((kind) => view.records(kind)))).flat().map((r) => [r.id, r]));
  for (const [label, json] of Object.entries(want.records!)) {
    const record = found.get(p.idOf(label));
    found.delete(p.idOf(label));
    const gone = want.removed?.includes(label) === true;
    if (gone || !record) {
      if (gone === (record !== undefined)) say(`record ${label} is there: ${record !== undefined}`);
      continue;
    }
    const { message } = recordField(record.kind);
    if (!equals(message, record.value, fromJson(message, p.named(json)))) say(`reads ${label} as ${JSON.stringify(toJson(message, record.value))}, want ${JSON.stringify(json)}`);
  }
  if (found.size > 0) say(`reads records that nobody expects: ${[...found.values()].map((r) => `${r.kind} ${r.id}`).join()}`);
}

function changes(e: Entry, cohort: string): HerdEvent[] {
  const of = (kind: HerdEvent['kind'], id: string, fish: number): HerdEvent[] => (id === cohort ? [{ at: e.at, kind, fish }] : []);
  switch (e.kind) {
    case 'stocking':
      return of('stocked', e.body.cohortId, e.body.count);
    case 'death':
      return of('died', e.body.cohortId, e.body.count);
    case 'fishHarvest':
      return of('harvested', e.body.cohortId, e.body.count);
    case 'count':
      return of('counted', e.body.cohortId, e.body.count);
    case 'move':
      return [...of('moved_out', e.body.cohortId, e.body.count), ...of('moved_in', e.body.toCohortId, e.body.count)];
  }
  return [];
}

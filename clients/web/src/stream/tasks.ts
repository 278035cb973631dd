// What needs doing on this walk, in the order the water runs, each with the
// answers that take one tap.
import { day, placeOf, type Book, type EntryOf, type Loop } from '../book/book';
import type { Later, Test } from '../book/later';
import { standing } from '../book/plantings';
import { Quantity } from '../gen/freshet/v1/reading_pb';
import { testOrder } from '../note/kits';
import type { Ration } from '../reckon/ration';
import { fedToday, type Live, type LoopReckoning, type Reckoning } from '../reckon/reckoning';
import type { SowingIdea } from '../reckon/supply';
import type { Judged } from '../reckon/water';
import type { Standing } from '../reckon/asking';
import type { Window } from '../reckon/bearing';

interface At {
  /** Stays the same while the task does. */
  id: string;
  placeId: string;
  standing: Standing;
}

export type Task = At &
  (
    | { kind: 'water'; judged: Judged; cut: Ration['cut'] }
    | { kind: 'feed'; ration: Ration }
    | { kind: 'appetite' }
    | { kind: 'test'; quantities: Quantity[]; last: number }
    | { kind: 'weigh'; live: Live; last: number | undefined }
    | { kind: 'bears'; window: Window }
    | { kind: 'past'; window: Window }
    | { kind: 'sow'; idea: SowingIdea }
    | { kind: 'incident'; entry: EntryOf<'incident'> }
  );

/** Every task of a site. */
export function tasks(book: Book, later: Later | undefined, reckoning: Reckoning, shift: number): Task[] {
  const places = book.loops.flatMap((l) => [...l.vessels.flatMap((v) => [v.id, ...l.beds.filter((b) => b.vesselId === v.id).map((b) => b.id)]), ...l.beds.map((b) => b.id)]);
  const order = [...places, ...book.bank.map((b) => b.id)];
  const list: Task[] = [
    ...incidents(book),
    ...reckoning.loops.flatMap((r) => [...waterTasks(r), ...feedTasks(book, r, shift), ...appetite(book, r), ...tests(book, r.loop, later?.tests ?? []), ...weighings(book, r)]),
    ...beds(book, reckoning),
    ...sowings(book, reckoning, shift),
  ];
  const at = (t: Task): number => (order.includes(t.placeId) ? order.indexOf(t.placeId) : order.length);
  return list.sort((a, b) => at(a) - at(b));
}

function waterTasks(r: LoopReckoning): Task[] {
  const cut = r.rations.every((x) => x.feedG === 0) ? r.rations[0]?.cut : undefined;
  return r.water
    .filter((j) => j.standing === 'act' || j.standing === 'watch')
    .map((judged) => ({ kind: 'water', id: 'water' + r.loop.system.id + judged.figure, placeId: tankOf(r.loop), standing: judged.standing, judged, cut: judged.standing === 'act' ? cut : undefined }));
}

const tankOf = (loop: Loop): string => loop.cohorts.find((c) => c.vesselId)?.vesselId ?? loop.vessels[0]?.id ?? '';

function feedTasks(book: Book, r: LoopReckoning, shift: number): Task[] {
  return r.rations
    .filter((x) => x.feedG && x.feedG >= 0.5 && fedToday(book, x.herd, shift) < 0.6 * x.feedG)
    .map((ration) => ({ kind: 'feed', id: 'feed' + ration.herd.cohort.id, placeId: ration.herd.cohort.vesselId || tankOf(r.loop), standing: ration.standing, ration }));
}

function appetite(book: Book, r: LoopReckoning): Task[] {
  const last = r.glass.newest(Quantity.APPETITE);
  if (r.rations.length === 0 || (last && book.now - last.entry.at < day * 0.75)) return [];
  return [{ kind: 'appetite', id: 'appetite' + r.loop.system.id, placeId: tankOf(r.loop), standing: 'well' }];
}

/** Tests that are due by the grower's own habit, gathered by place. */
function tests(book: Book, loop: Loop, all: readonly Test[]): Task[] {
  const due = all.filter((t) => placeOf(book, t.placeId)?.loop === loop && t.quantity !== Quantity.APPETITE && t.every !== undefined && book.now - t.last > Math.max(0.8, 0.95 * t.every) * day);
  const places = [...new Set(due.map((t) => t.placeId))];
  return places.map((placeId) => {
    const here = due.filter((t) => t.placeId === placeId);
    const quantities = here.map((t) => t.quantity).sort((a, b) => testOrder.indexOf(a) - testOrder.indexOf(b));
    return { kind: 'test', id: 'test' + placeId, placeId, standing: 'watch', quantities, last: Math.min(...here.map((t) => t.last)) };
  });
}

function weighings(book: Book, r: LoopReckoning): Task[] {
  return r.live.flatMap((live): Task[] => {
    const last = live.herd.weights.at(-1)?.at;
    if (live.herd.alive <= 0 || !(live.herd.cohort.targetWeightG > 0) || (last !== undefined && book.now - last < 35 * day)) return [];
    return [{ kind: 'weigh', id: 'weigh' + live.herd.cohort.id, placeId: live.herd.cohort.vesselId, standing: 'watch', live, last }];
  });
}

function beds(book: Book, { bearing, windows }: Reckoning): Task[] {
  return windows.flatMap((window): Task[] => {
    const stand = window.stand!;
    const fresh = stand.lastHarvest === undefined || book.now - stand.lastHarvest > 6 * day;
    const base = { id: stand.planting.id, placeId: window.bed, window };
    if (bearing.today > window.last + 3) return [{ kind: 'past', standing: 'watch', ...base }];
    return bearing.today >= window.first && fresh ? [{ kind: 'bears', standing: 'well', ...base }] : [];
  });
}

/** This week's sowings that have a bed, but those already made this week. */
function sowings(book: Book, { sow, bearing }: Reckoning, shift: number): Task[] {
  const monday = bearing.today - 6;
  return sow
    .filter((idea) => idea.bed !== undefined)
    .filter((idea) => !standing(bearing.all, idea.bed!, book.now).some((s) => s.planting.crop === idea.crop && (s.began! + shift) / day > monday))
    .slice(0, 3)
    .map((idea) => ({ kind: 'sow', id: 'sow' + idea.crop + idea.bed, placeId: idea.bed!, standing: 'well', idea }));
}

function incidents(book: Book): Task[] {
  return book.lately
    .filter((e): e is EntryOf<'incident'> => e.kind === 'incident' && !e.body.endedAt)
    .map((entry) => ({ kind: 'incident', id: entry.id, placeId: entry.body.vesselId, standing: 'act', entry }));
}

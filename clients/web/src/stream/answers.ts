// The answers to a task that take one tap.
import { timestampFromMs } from '@bufbuild/protobuf/wkt';

import type { Desk } from '../desk.svelte';
import { TroubleError, type Draft } from '../device/device';
import { PullingReason } from '../gen/freshet/v1/pulling_pb';
import { Method, Quantity, Unit } from '../gen/freshet/v1/reading_pb';
import { PlantingMethod } from '../gen/freshet/v1/planting_pb';
import type { Picture } from '../note/photo';
import { to } from '../route.svelte';
import { cropName } from '../words/names';
import type { Task } from './tasks';

export interface Answer {
  words: string;
  /** Leads to the keypad, or */
  href?: string;
  /** notes it at once. */
  act?: () => Promise<unknown>;
}

/** What can be answered, the likeliest first. */
export function answersTo(desk: Desk, task: Task): Answer[] {
  const { t, say } = desk;
  const note = (words: string, said: string, fill: (draft: Draft, siteId: string) => void): Answer => ({ words, act: () => noted(desk, said, fill) });
  switch (task.kind) {
    case 'water':
      return task.judged.standing === 'act' ? [{ words: t.task.again, href: to('note', task.placeId, 'reading') }] : [];
    case 'feed': {
      const { cohort } = task.ration.herd;
      const massG = Math.round(task.ration.feedG ?? 0);
      const amount = say.amount('mass', massG, 2);
      const give = note(t.task.gave(amount), `${cohort.name}, ${amount}`, (d, siteId) => d.note('feeding', { vesselId: cohort.vesselId, cohortId: cohort.id, feedId: usualFeed(desk, cohort.id), massG }, { siteId }));
      return [{ words: t.task.other, href: to('note', task.placeId, 'feeding', cohort.id) }, give];
    }
    case 'appetite':
      return t.words[Quantity.APPETITE].map((word, i) =>
        note(word, word, (d, siteId) =>
          d.note('reading', { quantity: Quantity.APPETITE, digits: BigInt(i), decimals: 0, unit: Unit.WORD, method: Method.EYE, placeId: task.placeId }, { siteId })),
      );
    case 'test':
      return [{ words: t.task.begin, href: to('note', task.placeId, 'reading', task.quantities.join('-')) }];
    case 'weigh':
      return [{ words: t.task.weighed, href: to('note', task.placeId, 'weighing', task.live.herd.cohort.id) }];
    case 'bears':
      return [{ words: t.task.pick, href: to('note', task.placeId, 'bedHarvest', task.window.stand!.planting.id) }];
    case 'past':
      return [
        note(t.task.pulled, cropName(t, desk.book?.crops ?? [], task.window.crop), (d, siteId) =>
          d.note('pulling', { plantingId: task.window.stand!.planting.id, reason: PullingReason.FINISHED }, { siteId })),
      ];
    case 'sow':
      return [note(t.task.sown, cropName(t, desk.book?.crops ?? [], task.idea.crop), (d, siteId) => sow(d, siteId, task.idea.crop, task.placeId, task.idea.areaM2))];
    case 'incident':
      return [
        note(t.task.over, t.incident[task.entry.body.kind], (d, siteId) => {
          const ended = d.eventOf('incident', { ...task.entry.body, endedAt: timestampFromMs(desk.device.now()) }, { siteId, at: task.entry.at });
          d.correct(task.entry, ended);
        }),
      ];
  }
}

/** A planting and its sowing belong together. */
export function sow(d: Draft, siteId: string, crop: string, bedId: string, areaM2: number, at?: number): void {
  d.together(() => {
    const area = Math.round(areaM2 * 100) / 100;
    const plantingId = d.make('planting', { crop, bedId, areaM2: area, method: PlantingMethod.DIRECT_SEED }, siteId);
    d.note('sowing', { plantingId, areaM2: area }, { siteId, ...(at !== undefined && { at }) });
  });
}

/** The feed a cohort was last given, else the only one there is. */
export function usualFeed(desk: Desk, cohortId: string): string {
  const last = desk.book?.lately.findLast((e) => e.kind === 'feeding' && e.body.cohortId === cohortId);
  if (last?.kind === 'feeding' && last.body.feedId) return last.body.feedId;
  return desk.book?.feeds.length === 1 ? desk.book.feeds[0]!.id : '';
}

/** Commits a draft at the open site, with a picture where there is one, and says so for ten seconds. False where it could not be kept: that is said too. */
export function noted(desk: Desk, words: string, fill: (draft: Draft, siteId: string) => void, photo?: Picture): Promise<boolean> {
  const siteId = desk.book!.site.id;
  desk.just = undefined;
  return kept(desk, async () => {
    if (photo) await desk.device.keepPhoto(photo.fields.sha256, photo.picture);
    desk.just = { words, noted: await desk.device.enter((draft) => fill(draft, siteId)) };
  });
}

/** Does what enters something, and says why where it could not be kept; tells whether it was. */
export async function kept(desk: Desk, work: () => Promise<unknown>): Promise<boolean> {
  desk.unkept = undefined;
  try {
    await work();
    return true;
  } catch (error) {
    if (!(error instanceof TroubleError)) throw error;
    desk.unkept = error;
    return false;
  }
}

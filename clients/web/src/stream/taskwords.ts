// A task in a sentence.
import type { Desk } from '../desk.svelte';
import { cropName } from '../words/names';
import type { Task } from './tasks';

export function taskSays({ t, say, book }: Desk, task: Task): string {
  const crop = (name: string): string => say.cap(cropName(t, book?.crops ?? [], name));
  switch (task.kind) {
    case 'water':
      return task.cut ? t.task.noFeed(t.task.cut[task.cut]) : t.water.short[task.judged.figure](task.judged);
    case 'feed': {
      const { herd, feedG = 0, fullG = 0, cut, heldBy } = task.ration;
      const grams = Math.round(feedG); // as it is noted when she taps it
      const amount = say.amount('mass', grams, 2);
      const [little = '', full = ''] = say.amounts('mass', [grams, fullG], 2);
      if (cut) return t.task.feedCut(herd.cohort.name, little, full, t.task.cut[cut]);
      return heldBy ? t.task.feedHeld(herd.cohort.name, amount, say.amount('mass', heldBy, 2)) : t.task.feed(herd.cohort.name, amount);
    }
    case 'appetite':
      return t.task.appetite;
    case 'test':
      return t.task.test(say.list(task.quantities.map((q) => t.quantity[q])), say.ago(task.last));
    case 'weigh':
      return task.last === undefined ? t.task.weighNever(task.live.herd.cohort.name) : t.task.weigh(task.live.herd.cohort.name, say.ago(task.last));
    case 'bears':
      return t.task.bears(crop(task.window.crop));
    case 'past':
      return t.task.past(crop(task.window.crop));
    case 'sow':
      return t.task.sow(cropName(t, book?.crops ?? [], task.idea.crop), say.amount('area', task.idea.areaM2, 2));
    case 'incident':
      return t.task.lasts(say.cap(t.incident[task.entry.body.kind]), say.when(task.entry.at));
  }
}

// Why something did not work, in the person's language.
import type { Words } from './words';

/** What happened, and what to do; where the reason is of a later release, as the server put it. */
export function troubleSays(t: Words, trouble: { reason: string; words?: string; hint: string }): string {
  const [what, hint] = t.trouble[trouble.reason] ?? [trouble.words ?? trouble.reason, trouble.hint];
  return [what, hint].filter(Boolean).join(' ');
}

/** How many entries the cooperative refused, and how many it holds. */
export const notStored = (t: Words, { refused, held }: { refused: number; held: number }): string =>
  [...(refused > 0 ? [`${t.outbox.refused(refused)}.`] : []), ...(held > 0 ? [`${t.outbox.held(held)}.`] : [])].join(' ');

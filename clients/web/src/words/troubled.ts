// Why something did not work, in the person's language.
import type { Words } from './words';

/** What happened, and what to do; where the reason is of a later release, as the server put it. */
export function troubleSays(t: Words, trouble: { reason: string; words?: string; hint: string }): string {
  const [what, hint] = t.trouble[trouble.reason] ?? [trouble.words ?? trouble.reason, trouble.hint];
  return [what, hint].filter(Boolean).join(' ');
}

// A judged figure in a sentence.
import type { Judged } from '../reckon/water';
import { speciesCalled } from '../words/names';
import type { Words } from '../words/words';

export function saidOf(t: Words, j: Judged): string {
  if (j.value === undefined) return t.water.unknown[j.figure];
  return t.water[j.figure](j, j.species ? speciesCalled(t, j.species) : '');
}

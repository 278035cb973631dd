// How much do I feed today? By species, weight, warmth and appetite; cut when
// the water says so; never more in all than the loop carries.
import { day } from '../book/book';
import { isSentinel, type Herd } from '../book/herds';
import { Quantity } from '../gen/freshet/v1/reading_pb';
import { number, speciesName, type Ask, type Standing } from './asking';
import type { Glass, Judged } from './water';

export type Cut = 'ammonia' | 'ammoniaNear' | 'oxygen' | 'nitrite';

export interface Ration {
  herd: Herd;
  /** Mean weight, g; undefined where never weighed. */
  grams: number | undefined;
  standing: Standing;
  /** g to give today; undefined where it cannot be told. */
  feedG: number | undefined;
  /** g they would eat were the water good. */
  fullG: number | undefined;
  cut: Cut | undefined;
  /** g a day that the loop carries in all, where that is what holds it back. */
  heldBy: number | undefined;
  appetite: number;
  celsius: number | undefined;
}

/** Share of a meal that fish finish, by the last word noted for their appetite. */
const finished = [0, 0.5, 0.9, 1, 1];

/** The share of a full ration that the water allows, and why. */
export function cutBy(judged: readonly Judged[], nitrite: number | undefined): { share: number; cut: Cut | undefined } {
  const standing = (figure: Judged['figure']): Standing | undefined => judged.find((j) => j.figure === figure)?.standing;
  if (standing('oxygen') === 'act') return { share: 0, cut: 'oxygen' };
  if (standing('ammonia') === 'act') return { share: 0, cut: 'ammonia' };
  if (nitrite !== undefined && nitrite > 1) return { share: 0, cut: 'nitrite' };
  if (standing('ammonia') === 'watch') return { share: 0.5, cut: 'ammoniaNear' };
  return { share: 1, cut: undefined };
}

/** A ration for each herd that lives; carries is what the loop takes in a day, g. */
export function rations(
  ask: Ask, glass: Glass, judged: readonly Judged[], herds: readonly { herd: Herd; grams: number | undefined }[], now: number, carries?: number,
): Ration[] {
  const celsius = glass.newest(Quantity.WATER_TEMPERATURE)?.value;
  const word = glass.newest(Quantity.APPETITE);
  const appetite = word && now - word.entry.at < 4 * day ? finished[Math.round(word.value)] ?? 1 : 1;
  const { share, cut } = cutBy(judged, glass.newest(Quantity.NITRITE)?.value);
  const list = herds
    .filter(({ herd }) => herd.alive > 0)
    .map(({ herd, grams }): Ration => {
      const fullG = grams === undefined || celsius === undefined ? undefined : full(ask, herd, grams, celsius, appetite);
      const feedG = fullG === undefined ? undefined : fullG * share;
      const standing = fullG === undefined ? 'unknown' : share === 0 ? 'act' : share < 1 ? 'watch' : 'well';
      return { herd, grams, standing, feedG, fullG, cut, heldBy: undefined, appetite, celsius };
    })
    .sort((a, b) => Number(isSentinel(a.herd)) - Number(isSentinel(b.herd)));
  return held(list, carries);
}

function full(ask: Ask, herd: Herd, grams: number, celsius: number, appetite: number): number | undefined {
  return number(ask, 'fish_ration', {
    species: speciesName(herd.cohort.species), fish: herd.alive, weight_g: grams, temperature_celsius: celsius, appetite,
  });
}

/** Keeps the sum below what filter, oxygen and plants carry. */
function held(list: Ration[], carries: number | undefined): Ration[] {
  const sum = list.reduce((s, r) => s + (r.feedG ?? 0), 0);
  if (!carries || sum <= carries) return list;
  return list.map((r) =>
    r.feedG === undefined ? r : { ...r, feedG: (r.feedG * carries) / sum, heldBy: carries, standing: r.standing === 'well' ? 'watch' : r.standing },
  );
}

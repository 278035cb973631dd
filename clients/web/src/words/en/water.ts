// English for the walk along the water, and what the water says.
import type { Judged } from '../../reckon/water';
import type { Say } from '../say';

export const water = (say: Say) => ({
  stream: {
    title: 'Stream',
    walk: 'This walk',
    nothing: 'Nothing needs you on this walk.',
    more: (n: number) => say.count(n, { one: 'and # more', other: 'and # more' }),
    holds: (litres: number) => say.amount('volume', litres),
    bank: 'On the bank',
    wayBack: (name: string) => `The water goes back to ${name}.`,
    noteAt: (name: string) => `Note something at ${name}`,
    why: 'Why?',
    stroke: 'One stroke in the water stands for ten fish.',
    empty: 'Nothing stands in it.',
    since: (when: string) => `since ${when}`,
    fish: (name: string, n: number, grams: string) => (grams ? `${say.places(n, 0)} ${name}, about ${grams} each` : `${say.places(n, 0)} ${name}`),
    negative: (name: string) => `More ${name} left than ever came: a stocking or a count is missing.`,
    stands: (crop: string) => crop,
    sown: (crop: string, when: string) => `${crop}, sown ${when}`,
    bears: (from: string, until: string) => `bears ${from} to ${until}`,
    bearsNow: (until: string) => `bears now, until about ${until}`,
    bearsFrom: (early: string, late: string) => `bears from ${early} – ${late}`,
    past: (since: string) => `past its bearing since ${since}`,
    old: (n: number) => say.count(n, { one: '# older reading', other: '# older readings' }),
  },

  task: {
    feed: (name: string, amount: string) => `${name}: ${amount} of feed today.`,
    feedCut: (name: string, amount: string, full: string, why: string) => `${name}: only ${amount} today instead of ${full}, since ${why}.`,
    feedHeld: (name: string, amount: string, carries: string) => `${name}: no more than ${amount} today; the loop carries ${carries} in all.`,
    noFeed: (why: string) => `Do not feed today, since ${why}.`,
    cut: { ammonia: 'ammonia is not safe', ammoniaNear: 'ammonia is close to its limit', oxygen: 'oxygen is too low', nitrite: 'nitrite is too high' },
    gave: (amount: string) => `Gave ${amount}`,
    other: 'Other',
    appetite: 'How do they eat?',
    test: (what: string, ago: string) => `Test ${what}; last ${ago}.`,
    begin: 'Begin',
    again: 'Test again',
    bears: (crop: string) => `${crop} bears.`,
    pick: 'Pick',
    past: (crop: string) => `${crop} is past its bearing.`,
    pulled: 'Pulled',
    sow: (crop: string, area: string) => `Sow ${area} of ${crop}.`,
    sown: 'Sown',
    weigh: (name: string, ago: string) => `Weigh about twenty of ${name}; last ${ago}.`,
    weighNever: (name: string) => `Weigh about twenty of ${name}: they never were.`,
    weighed: 'Weigh',
    lasts: (what: string, since: string) => `${what} since ${since}.`,
    over: 'It is over',
    stale: (what: string, ago: string) => `${what} was last read ${ago}.`,
    done: 'done',
  },

  water: {
    ammonia: (j: Judged) => {
      const now = `${say.number(j.value ?? NaN, 2)} mg/L of it is the poisonous kind, and ${say.number(j.facts.limit ?? NaN, 2)} is the limit.`;
      if (j.standing === 'act') return `Ammonia is not safe. ${now} It would be safe below ${say.number(j.facts.safeBelow ?? NaN, 2)} mg/L in all.`;
      const turns = j.facts.turnsAtPh === undefined ? '' : ` It would no longer be safe if pH passed ${say.places(j.facts.turnsAtPh, 1)}.`;
      return j.standing === 'watch' ? `Ammonia is close to its limit. ${now}${turns}` : `Ammonia is safe.${turns}`;
    },
    oxygen: (j: Judged) => {
      const is = `Oxygen is ${say.number(j.facts.measured ?? NaN, 2)} mg/L, ${say.percent((j.value ?? NaN) / 100)} of what this water can hold.`;
      const least = say.number(j.facts.limit ?? NaN, 2);
      if (j.standing === 'act') return `${is} The fish want at least ${least}: aerate now and do not feed.`;
      return j.standing === 'watch' ? `${is} That is close to the ${least} the fish want at least.` : is;
    },
    nitrite: (j: Judged) => {
      const is = `Nitrite is ${say.number(j.value ?? NaN, 2)} mg/L as N`;
      const chloride = j.facts.chlorideRatio === undefined ? '' : ` Chloride is ${say.number(j.facts.chlorideRatio, 2)} times as much.`;
      if (j.standing === 'act') return `${is}: too high. Do not feed, add clean water, and test again tomorrow.${chloride}`;
      return (j.standing === 'watch' ? `${is}, above the ${say.number(j.facts.high ?? NaN, 2)} wanted.` : `${is}: harmless.`) + chloride;
    },
    temperature: (j: Judged, species: string) => {
      const is = `The water is ${say.amount('temperature', j.value ?? NaN)}.`;
      if (j.standing === 'act') return `${is} That is near what kills ${species}.`;
      if (j.facts.low !== undefined) return `${is} ${species} does not feed below ${say.amount('temperature', j.facts.low)}: give nothing.`;
      if (j.facts.high !== undefined) return `${is} ${species} does not feed above ${say.amount('temperature', j.facts.high)}: give nothing.`;
      return is;
    },
    ph: (j: Judged) => {
      const is = `pH is ${say.places(j.value ?? NaN, 1)}.`;
      const { low = NaN, high = NaN } = j.facts;
      if (j.standing !== 'watch') return is;
      if ((j.value ?? NaN) < low) return `${is} Below ${say.places(low, 1)} bacteria slow down: raise alkalinity little by little, and test ammonia first, since raising pH makes it poisonous.`;
      return `${is} Above ${say.places(high, 1)} plants take up iron poorly. Do not force it down; it falls as bacteria work.`;
    },
    carbonDioxide: (j: Judged) => `Carbon dioxide is about ${say.number(j.value ?? NaN, 2)} mg/L; ${j.standing === 'watch' ? 'aerate more, below 20 is a common target' : 'below 20 is a common target'}.`,
    nitrate: (j: Judged) => {
      const is = `Nitrate is ${say.number(j.value ?? NaN, 2)} mg/L as N`;
      if (j.standing !== 'watch') return `${is}.`;
      return (j.value ?? NaN) < (j.facts.low ?? NaN) ? `${is}: little for the plants.` : `${is}, more than is wanted: plant more, or feed less.`;
    },
    /** In one breath, for the list of a walk. */
    short: {
      ammonia: (j: Judged): string => (j.standing === 'act' ? 'Ammonia is not safe.' : 'Ammonia is close to its limit.'),
      oxygen: (j: Judged): string => (j.standing === 'act' ? 'Oxygen is too low: aerate now.' : 'Oxygen is close to its limit.'),
      nitrite: (j: Judged): string => (j.standing === 'act' ? 'Nitrite is too high: add clean water.' : 'Nitrite is above what is wanted.'),
      temperature: (j: Judged): string => (j.standing === 'act' ? 'The water is near what kills the fish.' : 'The water is outside what the fish feed in.'),
      ph: (j: Judged): string => ((j.value ?? 7) > (j.facts.high ?? 7) ? 'pH is high.' : 'pH is low.'),
      carbonDioxide: (_: Judged): string => 'Carbon dioxide is high: aerate more.',
      nitrate: (j: Judged): string => ((j.value ?? 0) > (j.facts.high ?? 0) ? 'Nitrate is high: plant more, or feed less.' : 'Nitrate is low: little for the plants.'),
    },
    unknown: {
      ammonia: 'Whether ammonia is safe cannot be told.', oxygen: 'Oxygen is not measured here.', nitrite: 'Nitrite is not tested here.', temperature: 'Water temperature is not measured here.',
      ph: 'pH is not measured here.', carbonDioxide: 'Carbon dioxide cannot be told.', nitrate: 'Nitrate is not tested here.',
    },
    missing: (what: string) => `${what} was never read here.`,
  },
});

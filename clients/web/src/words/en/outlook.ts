// English for the water in the days to come.
import { UnitSystem } from '../../gen/freshet/v1/member_pb';
import type { Say } from '../say';

export const outlook = (say: Say) => ({
  outlook: {
    title: 'The water to come', working: 'Learning this loop from its last six weeks …',
    broken: 'The days to come could not be worked out on this phone. Nothing is lost: turn to another page and back.',
    noVolume: 'The days to come cannot be told: no vessel of this loop has its volume written down.',
    refused: (why: string) => `The days to come cannot be told, a number lies where it cannot be (${why}). Correct it in the diary.`,
    nothingRead: 'Nothing was read in six weeks, so nothing can be foretold. Read how warm the water is, and test ammonia and pH.',
    calm: (days: number) => `Nothing that was read is likely to pass its limit in the next ${say.count(days, { one: 'day', other: '# days' })}: on each day less than 1 in 10 for each.`,
    calmYet: (what: string, days: number) => `${what} is not well now, by the last tests. Yet no limit is likely to be passed in the next ${say.count(days, { one: 'day', other: '# days' })}, on each less than 1 in 10: the forecast takes the last test for a slip, or the water to get over it. Test again before you lean on that.`,
    besides: (what: string, coming: string) => `${what} is not well now, by the last tests. ${coming}`,
    passes: (what: string, least: boolean, limit: string, on: string, inTen: number) => `${what} may ${least ? 'fall below' : 'pass'} ${limit} on ${on}: ${inTen} in 10.`,
    key: 'Line: the middle. Band: meant to hold 8 times in 10. The farther ahead, the more a figure is taken to stay as it was in the last week. All of it takes feeding, fish and weather to go on as of late; what breaks or falls ill is not in it. Fish at the surface tell before any number does.',
    name: { temperature: 'how warm', oxygen: 'oxygen', unionized: 'harmful ammonia', ammonia: 'ammonia', nitrite: 'nitrite', nitrate: 'nitrate', ph: 'pH', alkalinity: 'alkalinity' },
    of: { temperature: 'mean of the day', oxygen: 'in its lowest hour', unionized: 'in its highest hour', ammonia: 'mean of the day', nitrite: 'mean of the day', nitrate: 'mean of the day', ph: 'in its lowest hour', alkalinity: 'mean of the day' },
    unit: { temperature: '', oxygen: 'mg/L', unionized: 'mg/L as N', ammonia: 'mg/L as N', nitrite: 'mg/L as N', nitrate: 'mg/L as N', ph: '', alkalinity: 'mg/L as CaCO₃' },
    test: { temperature: 'Reading how warm the water is', oxygen: 'Reading oxygen', unionized: '', ammonia: 'A test of ammonia', nitrite: 'A test of nitrite', nitrate: 'A test of nitrate', ph: 'Reading pH', alkalinity: 'A test of alkalinity' },
    narrowed: (test: string, percent: number) => `${test} now would make the band about ${percent} in 100 narrower.`,
    by: (on: string, low: string, high: string, middle: string) => `By ${on} between ${low} and ${high}, as likely below ${middle} as above.`,
    otherwise: (low: string, high: string, middle: string) => `If so ${low} to ${high}, as likely below ${middle} as above.`,
    least: (limit: string) => `It should not fall below ${limit}.`, most: (limit: string) => `It should not pass ${limit}.`, day: 'Day',
    daily: 'Day by day', others: (names: string) => `Without a limit: ${names}`,
    howFar: 'How far ahead', days: (n: number) => say.count(n, { one: '# day', other: '# days' }),
    wonder: 'What if', asOfLate: 'all goes on as of late', ifSo: (sentence: string) => `If so: ${sentence}`,
    wonders: {
      unfed: 'no feed for two days', half: 'half the feed', more: 'half as much feed again', get fish() { return `${say.amount('mass', 10_000, 2)} more fish, fed like the rest`; },
      still: 'pump and air stand for six hours tomorrow', cold: `the air is ${say.units === UnitSystem.US_CUSTOMARY ? '9 °F' : '5 °C'} colder`, warm: `the air is ${say.units === UnitSystem.US_CUSTOMARY ? '9 °F' : '5 °C'} warmer`, water: 'a tenth of the water replaced each day',
    },
    untried: 'No such forecast could be tried here yet: that takes some weeks of readings.',
    kept: (held: number, tried: number) => `Tried on the last six weeks: of ${say.count(tried, { one: '# reading', other: '# readings' })} foretold up to two weeks ahead, ${say.number(held, 6)} came within their band of 8 in 10. How far they were off draws the bands above wider or closer.`,
    rests: 'Three hundred guesses at this loop, each from what is published, bent by its own readings (Evensen 1994; Burgers et al. 1998). Worked out on this phone, from what it holds.',
  },
});

// English for how sites stand beside each other, and for what is shared.
import { UnitSystem } from '../../gen/freshet/v1/member_pb';
import type { Say } from '../say';

export const together = (say: Say) => {
  const american = say.units === UnitSystem.US_CUSTOMARY;
  const [weight, ground, water] = american ? ['pound', 'square foot', 'gallons'] : ['kilogram', 'square metre', 'litres'];
  return {
    together: {
      title: 'Together', lead: 'The same measure for every site that shares it, each with its interval. Where intervals overlap, nobody is ahead.',
      measure: { 1: `Produce from a ${ground} in a year`, 2: `Feed for a ${weight} of fish`, 3: 'Fish that live', 4: `Water for a ${weight}`, 5: `Electricity for a ${weight}`, 6: `Work for a ${weight}` } as Record<number, string>,
      own: 'ours', member: 'a member’s site', group: 'all of them',
      rank: (low: number, high: number, n: number) => (low === high ? `place ${say.places(low, 0)} of ${say.places(n, 0)}` : `anywhere from place ${say.places(low, 0)} to ${say.places(high, 0)} of ${say.places(n, 0)}`),
      n: (n: number) => say.count(n, { one: '# site', other: '# sites' }), days: (n: number) => say.count(n, { one: '# day of record', other: '# days of record' }),
      leftOut: (n: number, why: string) => `${say.count(n, { one: '# site left out', other: '# sites left out' })}: ${why}`,
      why: {
        'fewer than 4 months with feed noted on half the days': 'fewer than 4 months with feed noted on half of the days', 'no month in which both it and others harvested': 'no month in which both it and others harvested',
        'no beds with a known area': 'no bed whose area is known', 'it was noted in fewer than 4 of the months with feed noted': 'this was noted in fewer than 4 of the months that count', 'what was noted comes to nothing': 'what was noted comes to nothing', 'nothing was harvested': 'no harvest', 'fish were not weighed often enough': 'fish weighed too seldom', 'no fish were stocked': 'no fish put in',
      } as Record<string, string>,
      mean: (value: string, low: string, high: string) => `The mean of the group is ${value}, 9 times in 10 between ${low} and ${high}.`,
      about: (value: string) => `The mean of the group is about ${value}.`, coarse: 'A site went from this comparison lately. Until others have come or gone, only this and our own are shown, so that nobody can work out whose figure went.',
      alike: 'What the sites differ by is no more than chance alone would bring: no order can be told.',
      notAmong: 'Ours is not among them: it is not shared, it lacks what this measure needs, or it waits. Newcomers are counted only when enough members have come together, so that nobody can tell a newcomer’s figure.',
      year: 'On one and the same year', yearLead: 'Who notes only the summer looks best. So each site is set on the same twelve months, by what each month gave at the sites that noted it, before it is drawn above.',
      months: (n: number) => `${say.places(n, 0)} of 12 months`, monthsHead: 'months', span: (from: string, to: string) => `Months from ${from} to ${to}.`, asNoted: 'as noted', ofYear: 'a whole year',
      oneYear: (noted: string, n: number, year: string, low: string, high: string) => `Ours gave ${noted} in the ${say.count(n, { one: 'month', other: '# months' })} that count. A whole year like everybody’s comes to ${year}, 9 times in 10 between ${low} and ${high}.`,
      stands: (low: number, high: number, n: number) => (low === high ? `Ours stands at place ${low} of ${n}.` : `Ours stands anywhere from place ${low} to ${high} of ${n}: there are too few data to say closer.`),
      apart: (n: number, others: number) => (n === 0 ? `It cannot be told apart from any of the ${others} others.` : `It can be told apart from ${n} of the ${others} others; of those, up to 1 in 10 may be so by chance.`),
      tenfold: (ratio: string, low: string, high: string) => `Ten times the harvest of soil, as is often said? A ${ground} in our loop gave ${ratio} times what one of our soil gave, 9 times in 10 between ${low} and ${high}.`,
      tenfoldYear: 'A whole year is needed to tell: soil bears in its season only.', tenfoldNo: 'So: not here.', tenfoldYes: 'So: here, yes.', tenfoldOpen: 'So: it cannot be told.',
      tenfoldNot: 'Crops in the loop and in soil were not the same, and the ground under tanks and paths is not counted.',
      tenth: (share: string, field: string, low: string, high: string) => `A tenth of the water, as is often said? Our loop took ${share} times the ${field} of rain and irrigation that vegetables of the field take, 9 times in 10 between ${low} and ${high}.`,
      tenthYear: 'A whole year is needed to tell: water dries off in its season.', tenthMore: 'So: more than the field.',
      tenthNot: 'Fields differ several times over, and much of their water is rain that falls anyway: a yardstick, not the field next door.',
      nearest: (n: number, value: string) => `Of the ${say.places(n, 0)} sites nearest to ours in climate, size and species the mean is about ${value}.`,
      soil: 'Our own soil, same measure', asOf: (when: string) => `As heard ${when}.`, invented: 'This cooperative’s figures are invented, like the notebook.', definition: 'What is measured',
      define: {
        1: `What was picked, as weighed at harvest, for each ${ground} of beds in loops and each year of record. Beds count whether planted or not.`, 2: `Feed given for each ${weight} that the fish gained alive. What dead fish had gained counts too.`,
        3: 'Of each hundred fish put in, those alive or used, of groups that live or were put in within the time.', 4: `Water added to loops, in ${water}, for each ${weight} of produce and fish taken from them. Only months in which some was noted count: one without is not known to have had none.`,
        5: `Electricity by the meter, in kilowatt-hours, for each ${weight} of produce and fish. Only months metered over half count, brought up to the whole month.`, 6: `Work that was noted, in hours, for each ${weight} of produce and fish. Only months in which some was noted, of sites that share their work.`,
      } as Record<number, string>,
      method: 'Sites as random effects (restricted likelihood), their intervals after Hartung & Knapp 2001; each site’s figure is a ratio of sums of months (Cochran 1977), set on one and the same year by what each month gave at the sites that noted it (Andersen 1977), drawn towards the group as far as its record is thin.',
      gone: 'What was heard before is put away: somebody may have taken theirs back.',
      notJoined: 'Alone, a loop can only be compared with its own past. In a cooperative, sites that share a measure stand side by side here.', ask: 'Asking the cooperative',
      sharing: 'What we share', sharingLead: 'Each kind of record on its own. Private: nobody. Figures: counted without the name. Named: with the name. Open: others may read the records. It can be taken back at any time.',
      level: { 1: 'private', 2: 'figures', 3: 'named', 4: 'open' } as Record<number, string>,
      kinds: { all: 'Everything but work, money, notes and photos', labour: 'Work', energy: 'Electricity', expense: 'Money' },
      invite: 'Invite somebody', inviteLead: 'For whom?', role: { 1: 'steward', 2: 'grower', 3: 'helper here', 4: 'reader' } as Record<number, string>, valid: (when: string) => `Good for one person, until ${when}. Let them scan it, or read it to them.`,
    },
  };
};

// English for the pages but the first.
import type { Say } from '../say';

export const pages = (say: Say) => ({
  page: { stream: 'Stream', why: 'Why', ahead: 'Ahead', larder: 'Larder', budget: 'Nitrogen', build: 'What is written of the place', diary: 'Diary', papers: 'Papers', phone: 'This phone' },

  contents: {
    tasks: (n: number) => say.count(n, { one: '# thing to do on this walk', other: '# things to do on this walk' }),
    calm: 'nothing needs you',
    why: 'what the water says, and what the loop carries',
    ahead: 'fish, beds and gaps on one time line',
    larder: 'what the harvest became',
    diary: 'what was noted, day by day',
    build: 'vessels, beds, fish, feed',
    papers: 'a day sheet, a calendar, a table',
    phone: 'language, units, light',
    sites: 'Sites',
  },

  phone: {
    nothingWaits: 'Nothing waits on this phone',
    oldest: (ago: string) => `The oldest was noted ${ago}.`,
    heard: (ago: string) => `Last heard from the cooperative ${ago}.`,
    never: 'This phone has not heard from a cooperative yet. What you note is kept here.',
    invented: 'This is the invented notebook, for looking around. Nothing in it is sent to anybody.',
    ownNotebook: 'Go to my own notebook',
    language: 'Language', units: 'Units', light: 'Light',
    system: { 0: '', 1: 'metric', 2: 'US customary' } as Record<number, string>,
    lights: { auto: 'by the hour', day: 'day', night: 'night round' },
  },

  first: {
    lead: 'A notebook for a loop of water with fish and plants. It works with no signal, and reckons what follows from what you write.',
    begin: 'Draw my loop',
    yours: 'Your loop',
    setting: 'Language and units',
    lookWords: 'Or leaf through an invented one first. It stays on this phone.',
    look: 'Look around',
    place: 'What do you call the place?',
    start: 'Where do the fish live?',
    next: 'What does the water meet next?',
    holds: (unit: string) => `Water it holds, ${unit}`,
    add: 'Draw it',
    closes: 'The water goes back: done',
  },

  why: {
    figure: { ammonia: 'Ammonia', oxygen: 'Oxygen', nitrite: 'Nitrite', temperature: 'Warmth', ph: 'pH', carbonDioxide: 'Carbon dioxide', nitrate: 'Nitrate' },
    restsOn: 'What it rests on',
    source: 'Who says so',
    setting: { ammoniaLimit: 'most wanted', oxygenLimit: 'least wanted', elevation: 'height, m', low: 'lowest wanted', high: 'highest wanted' },
    from: { loop: 'set for this loop', site: 'the site', species: '', published: '' },
    careful: 'Test again before acting on a number, change one thing at a time, and watch the animals.',
    week: 'Since a week ago',
    went: (before: string, after: string) => `It went from ${before} to ${after}.`,
    split: 'Each part is what that reading alone brought, over every order in which they could have changed (Shapley 1953). The parts sum to the change.',
    beforeIt: 'What happened before it',
    carries: 'What this loop carries',
    binds: (limit: string, feed: string, fish: string) => `${say.cap(limit)} is the tightest: ${feed} of feed a day, about ${fish} of fish.`,
    limit: { oxygen: 'oxygen', nitrification: 'the filter', carbonate: 'alkalinity', plants: 'plants', space: 'space' },
    carryCaution: 'Fish grow: stock for the day they are taken out, and for the pump’s worst hour.',
    days: (n: number) => say.count(n, { one: '# day', other: '# days' }),
    all: 'all',
    chart: (what: string, n: number) => `${what} over time, ${say.count(n, { one: '# reading', other: '# readings' })}. The arrow keys move it; the numbers are in the table below.`,
    numbers: 'The last numbers',
  },

  papers: {
    print: 'Print the day sheet', calendar: 'Calendar file of sowing and bearing', table: 'Records of a year as a table (CSV)', hour: 'hour',
    caution: 'Electricity near water: residual-current devices, and a licensed electrician. Labels and local law outrank every number here.',
  },
});

// English for the pages but the first.
import { cover } from './cover';
import type { Say } from '../say';

export const pages = (say: Say) => ({
  page: { stream: 'Stream', why: 'Why', ahead: 'Ahead', larder: 'Larder', budget: 'Nitrogen', build: 'What is written of the place', diary: 'Diary', together: 'Together', papers: 'Papers', phone: 'This phone' },

  contents: {
    tasks: (n: number) => say.count(n, { one: '# thing to do on this walk', other: '# things to do on this walk' }),
    calm: 'nothing needs you',
    why: 'what the water says',
    ahead: 'fish, beds and gaps',
    larder: 'what the harvest became',
    diary: 'what was noted, day by day',
    build: 'vessels, beds, fish, feed',
    together: 'our site among the others',
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
    ...cover,
    yours: 'Your loop',
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
    setting: { ammoniaLimit: 'most wanted', oxygenLimit: 'least wanted', elevation: 'height above the sea', low: 'lowest wanted', high: 'highest wanted' },
    from: { loop: 'set for this loop', site: 'the site', species: '', published: '' },
    careful: 'Test again before acting on a number, change one thing at a time, and watch the animals.',
    usual: (low: string, high: string) => `Usual here: ${low} to ${high}.`,
    week: 'Since a week ago',
    went: (before: string, after: string) => `It went from ${before} to ${after}.`,
    split: 'Each part is what that reading alone brought, over every order in which they could have changed (Shapley 1953). The parts sum to the change.',
    cameAndWent: (what: string, n: number) => `What brought and took ${what}, ${say.count(n, { one: 'in # day', other: 'in # days' })}`,
    flow: { made: 'made of feed', ofAmmonia: 'made of ammonia', base: 'base put in', nitrified: 'used by bacteria', added: 'water added', letGo: 'water let go', rest: 'the rest' },
    rest: {
      ammonia: 'Reckoned from the feed that was noted. The rest is what filter and plants took, and errors of the tests.',
      nitrite: 'Reckoned from the feed that was noted. The rest is what turned to nitrate, and errors of the tests.',
      nitrate: 'Reckoned from the feed that was noted. The rest is what plants took and what went to the air, and errors of the tests.',
      alkalinity: 'Reckoned from the base that was put in, and from feed: bacteria that make nitrate of its ammonia use up 7.14 g of alkalinity for each gram of nitrogen. The rest is what plants and stone gave back, and errors of the tests.',
    },
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

  loopSheet: {
    lead: (water: string, flow: string) => `${water} of water go round and round here${flow ? `, ${flow} of them` : ''}. Nothing is thrown away that something else can live on.`,
    fish: (n: string, mass: string, feed: string) => `${n} fish live here, about ${mass} together. They eat ${feed} of feed a day. What they breathe and pass out makes the water poisonous for them: ammonia.`,
    fishNone: 'Fish live here. What they breathe and pass out makes the water poisonous for them: ammonia.',
    filter: 'Bacteria live on every stone. They need air, and turn ammonia first into nitrite, then into nitrate, which plants like.',
    filterOf: (area: string) => `Bacteria live on ${area} of stone. They need air, and turn ammonia first into nitrite, then into nitrate, which plants like.`,
    beds: (n: string, area: string) => `In ${n} beds, ${area} in all, plants take the nitrate up and grow. That cleans the water.`,
    does: { 0: '', 1: '', 2: 'Water slows down and what is solid sinks. It is taken out and feeds the soil.', 3: '', 4: 'The pump stands here. It is the only thing that lifts the water; when it stops, fish have minutes.', 5: '', 6: 'Clean water gathers here on its way back to the fish.' } as Record<number, string>,
    end: 'So the fish feed the plants, and the plants keep the water fit for the fish.',
  },

  papers: {
    printIt: 'Print', loop: 'Your loop on one page, to teach with', tags: 'Tags for tanks and beds', sheet: 'Day sheet',
    print: 'Print the day sheet', calendar: 'Calendar file of sowing and bearing', table: 'Records of a year as a table (CSV)', hour: 'hour',
    caution: 'Electricity near water: residual-current devices, and a licensed electrician. Labels and local law outrank every number here.',
  },
});

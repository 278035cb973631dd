// English for trials: a question put to beds.
import type { Say } from '../say';

export const trial = (say: Say) => ({
  trial: {
    title: 'Trials', none: 'That trial is not in this notebook.',
    empty: 'No question is put to the beds yet. Two ways of doing the same thing, each in three beds or more, decided by lot which bed gets which: then chance can be told from the way. “freshet trial plan”, on a computer, draws the lots and says how much so many beds can tell.',
    decidedMore: (other: string, first: string, by: string, near: string, far: string, sure: string) => `Decided: “${other}” gave ${by} more than “${first}”, between ${near} and ${far}, ${sure} times in 100.`,
    decidedLess: (other: string, first: string, by: string, near: string, far: string, sure: string) => `Decided: “${other}” gave ${by} less than “${first}”, between ${near} and ${far}, ${sure} times in 100.`,
    openMore: (other: string, first: string, by: string, low: string, high: string) => `Undecided: so far “${other}” gave ${by} more than “${first}”, but it may be anything between ${low} less and ${high} more.`,
    openLess: (other: string, first: string, by: string, low: string, high: string) => `Undecided: so far “${other}” gave ${by} less than “${first}”, but it may be anything between ${low} less and ${high} more.`,
    tooFew: (other: string, first: string) => `“${other}” against “${first}”: too few plantings were picked to tell. It takes two of each.`,
    wanted: (percent: string, n: number) => `To notice a difference of ${percent} in 8 of 10 such trials would take about ${say.count(n, { one: '# planting', other: '# plantings' })} of each.`,
    over: (on: string) => `It ended on ${on}. What chance would make once in 20 such trials is told.`,
    runs: 'It still runs. Until its last day only a difference is told that chance would make once in 1,000 such trials: so one may look as often as one likes.',
    compared: 'What is compared', plantings: (n: number, all: number) => `${say.places(n, 0)} of ${say.count(all, { one: '# planting', other: '# plantings' })} picked`, nothing: 'nothing yet',
    measures: { 0: '', 1: 'Measured is all that was picked from each planting, for its ground.', 2: 'Measured are pieces picked from each plant.', 3: 'Measured are the days from the start to the first picking.' } as Record<number, string>,
    stops: (rule: string) => `It ends: ${rule}.`, pieces: (n: string) => `${n} a plant`, days: (n: string) => `${n} days`,
    layout: 'Where it grows', noPlots: 'None of its plantings is in this notebook.', looks: 'Looks so far', looksLead: 'On the first of each month, and now. A stroke that does not cross the broken line decides.',
    against: (other: string, first: string) => `${other} against ${first}`, last: 'the last', less: 'less', same: 'no difference', more: 'more', how: 'How it is reckoned',
    method: 'Within beds where every bed holds both (Yates 1933), else by Welch 1947, on each planting’s own figure. Before the last day 1 in 1,000 (Haybittle 1971, Peto et al. 1976), then 1 in 20; several arms share it (Dunn 1961).',
  },
});

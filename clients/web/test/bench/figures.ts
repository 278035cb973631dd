// How figures are written into the table.

export const kb = (bytes: number): string => `${Math.round(bytes / 1000)} kB`;

/** "6.1 s"; below ten seconds with a digit. */
export const seconds = (ms: number): string => `${(ms / 1000).toFixed(ms < 10_000 ? 2 : 1)} s`;

export const thousands = (n: number): string => n.toLocaleString('en');

const sorted = (values: readonly number[]): number[] => [...values].sort((a, b) => a - b);

export const median = (values: readonly number[]): number => sorted(values)[Math.floor(values.length / 2)] ?? NaN;

export const spread = (ms: readonly number[]): string => `median ${Math.round(median(ms))} ms, slowest ${Math.round(Math.max(...ms))} ms`;

/** A row: what was measured, what came out, what is wanted. */
export type Row = [what: string, measured: string, goal: string];

/** A table of rows with the machine's load when each was begun. */
export type Loaded = [...Row, load: string];

const head = '| what | measured | wanted | load |\n| --- | --- | --- | --- |\n';

export const table = (rows: readonly Loaded[]): string => head + rows.map((r) => `| ${r.join(' | ')} |`).join('\n');

/** The rows of a table that was written before. */
export const rowsOf = (text: string): Loaded[] => (text.split(head)[1] ?? '').trim().split('\n').filter(Boolean).map((line) => line.slice(2, -2).split(' | ') as Loaded);

/** Rows of before with those measured anew in their places, and what is new after them. */
export function renewed(before: readonly Loaded[], anew: readonly Loaded[]): Loaded[] {
  const found = new Map([...before, ...anew].map((r) => [r[0], r]));
  return [...found.values()];
}

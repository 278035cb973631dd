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

export const table = (rows: readonly Row[]): string => ['| what | measured | wanted |', '| --- | --- | --- |', ...rows.map((r) => `| ${r.join(' | ')} |`)].join('\n');

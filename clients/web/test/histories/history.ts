// A history of testdata/sync; clients/README.md says what its keys mean.
import type { JsonObject } from '@bufbuild/protobuf';

export interface History {
  story: string;
  steps: Step[];
  ends: Record<string, Sight>;
}

export interface Step {
  wait?: string;
  server?: string;
  join?: string;
  by?: string;
  role?: string;
  is?: string;
  install?: string;
  revoke?: string;
  note?: string;
  set?: string;
  remove?: string;
  together?: string;
  entries?: Step[];
  as?: string;
  event?: JsonObject;
  more?: string;
  edit?: JsonObject;
  record?: string;
  times?: number;
  every?: string;
  sync?: string;
  fails?: string;
  network?: string;
  cut?: string[];
  lose?: string[];
  double?: string[];
  break?: number;
  clock?: string;
  off?: string;
  reboot?: boolean;
  wall_only?: boolean;
  restart?: string;
  look?: string;
  sees?: Sight;
}

/** What a person reads on a device. Keys that are left out are not looked at. */
export interface Sight {
  entries?: string[];
  as?: Record<string, JsonObject>;
  more?: Record<string, string>;
  entered?: Record<string, string>;
  records?: Record<string, JsonObject>;
  removed?: string[];
  alive?: Record<string, number>;
  unexplained?: Record<string, number>;
  left?: Record<string, string>;
  waiting?: number;
}

const stepKeys = ['wait', 'server', 'join', 'by', 'role', 'is', 'install', 'revoke', 'note', 'set', 'remove', 'together', 'entries', 'as', 'event', 'more', 'edit', 'record', 'times', 'every', 'sync', 'fails', 'network', 'cut', 'lose', 'double', 'break', 'clock', 'off', 'reboot', 'wall_only', 'restart', 'look', 'sees'];
const sightKeys = ['entries', 'as', 'more', 'entered', 'records', 'removed', 'alive', 'unexplained', 'left', 'waiting'];

/** Reads a history; a key that the player does not know stops it. */
export function readHistory(text: string): History {
  const h = JSON.parse(text) as History;
  known(h, ['story', 'steps', 'ends']);
  const steps = (list: readonly Step[]): void => list.forEach((s) => {
    known(s, stepKeys);
    if (s.sees) known(s.sees, sightKeys);
    steps(s.entries ?? []);
  });
  steps(h.steps);
  Object.values(h.ends).forEach((sight) => known(sight, sightKeys));
  return h;
}

function known(object: object, keys: readonly string[]): void {
  const strange = Object.keys(object).filter((key) => !keys.includes(key));
  if (strange.length > 0) throw new Error(`nobody knows ${strange.join(', ')}`);
}

/** What a history says, laid over what holds for all, key by key. */
export function over(sight: Sight, base: Sight): Sight {
  return {
    ...base, ...sight,
    as: { ...base.as, ...sight.as }, more: { ...base.more, ...sight.more }, entered: { ...base.entered, ...sight.entered },
    ...((base.records ?? sight.records) && { records: { ...base.records, ...sight.records } }),
    removed: [...(base.removed ?? []), ...(sight.removed ?? [])],
  };
}

/** "p1..12" as p1 to p12. */
export function spread(labels: readonly string[]): string[] {
  return labels.flatMap((label) => {
    const [, head = '', from, to] = /^(.*?)(\d+)\.\.(\d+)$/.exec(label) ?? [];
    return from === undefined ? [label] : Array.from({ length: Number(to) - Number(from) + 1 }, (_, i) => head + (Number(from) + i));
  });
}

/** A span of time as ms: "-1d", "90m". */
export function span(text: string): number {
  const units: Record<string, number> = { d: 86_400_000, h: 3_600_000, m: 60_000, s: 1000 };
  const unit = units[text.at(-1) ?? ''];
  if (unit === undefined || !/^-?\d+.$/.test(text)) throw new Error(`${text} is no span of time`);
  return Number(text.slice(0, -1)) * unit;
}

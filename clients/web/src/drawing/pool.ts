// A pool is where the stream widens: one vessel, seen as a surveyor draws
// still water, with lines that follow the bank and grow apart.
import type { VesselKind } from '../gen/freshet/v1/vessel_pb';
import { dice, smooth, waver, type Point } from './hand';
import { bed, fishTank, mediaFilter, pumpTank, returnTank, settler } from './vessels';

export interface Pool {
  /** The bank, a closed path around (0, 0) at the middle of the top. */
  bank: string;
  /** Half the width of each px row from the top. */
  profile: number[];
  width: number;
  height: number;
}

/** Height over width, and half width along the depth from 0 to 1. */
interface Shape {
  tall: number;
  half: (t: number) => number;
}

const rounded =
  (corner: number) =>
  (t: number): number =>
    Math.pow(Math.max(0, 1 - Math.pow(Math.abs(2 * t - 1), corner)), 1 / corner);

const funnel = (t: number): number => (t < 0.42 ? Math.min(1, 0.72 + t * 3) : 1 - ((t - 0.42) / 0.58) ** 1.15 * 0.8);

const shapes: Record<VesselKind, Shape> = {
  0: { tall: 1, half: rounded(2) },
  [fishTank]: { tall: 0.98, half: rounded(3.1) },
  [settler]: { tall: 1.3, half: funnel },
  [mediaFilter]: { tall: 0.92, half: rounded(7) },
  [pumpTank]: { tall: 0.8, half: rounded(14) },
  [bed]: { tall: 4.2, half: rounded(16) },
  [returnTank]: { tall: 0.7, half: rounded(2.2) },
};

/** Distances of the lines from the bank, px: engravers let them grow apart. */
const distances = [4.5, 10, 16.5, 24, 33, 44];

/** Draws a vessel whose area on the page is given in px². */
export function pool(kind: VesselKind, area: number, seed: string): Pool {
  const shape = shapes[kind];
  const width = Math.sqrt(area / shape.tall);
  const height = Math.round(Math.max(14, width * shape.tall));
  const profile = Array.from({ length: height + 1 }, (_, y) => (shape.half(y / height) * width) / 2);
  return { bank: around(profile, seed, 0.9), profile, width, height };
}

/** Lines that follow the bank, from the outermost in. */
export function contours({ profile }: Pool, seed: string): string[] {
  const lines = distances.map((d) => eroded(profile, d)).filter((line) => line.some((h) => h > 1.5));
  return lines.map((line, i) => around(line, seed + i, 0.5));
}

/** The profile of what lies further than d from the bank. */
function eroded(profile: readonly number[], d: number): number[] {
  const reach = Math.floor(d);
  const bow = Array.from({ length: 2 * reach + 1 }, (_, i) => Math.sqrt(d * d - (i - reach) ** 2));
  return profile.map((_, y) => {
    if (y < reach || y + reach >= profile.length) return 0; // the bank above or below is nearer
    let least = Infinity;
    for (let i = 0; i < bow.length && least > 0; i++) least = Math.min(least, profile[y - reach + i]! - bow[i]!);
    return Math.max(0, least);
  });
}

/** A closed line around a profile. */
function around(profile: readonly number[], seed: string, reach: number): string {
  const throws = dice(seed);
  const left = waver(throws, reach);
  const right = waver(throws, reach);
  const rows = rowsOf(profile);
  const down: Point[] = rows.map((y) => [profile[y]! + right(y), y]);
  const up: Point[] = rows.map((y): Point => [-profile[y]! + left(y), y]).reverse();
  return smooth([...down, ...up], true);
}

/** Rows to put points on: closer where the bank turns quickly. */
function rowsOf(profile: readonly number[]): number[] {
  const first = profile.findIndex((h) => h > 0.5);
  const last = profile.length - 1 - [...profile].reverse().findIndex((h) => h > 0.5);
  const rows: number[] = [];
  let from = -9;
  for (let y = first; y <= last; y++) {
    const turn = Math.abs((profile[y] ?? 0) - (profile[Math.max(first, y - 1)] ?? 0));
    if (y === first || y === last || y - from >= 4 || turn > 1) {
      rows.push(y);
      from = y;
    }
  }
  return rows;
}

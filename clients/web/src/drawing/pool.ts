// A pool is where the stream widens: one vessel, seen as a surveyor draws
// still water, with lines that follow the bank and grow apart.
import { VesselKind } from '../gen/freshet/v1/vessel_pb';
import { dice, smooth, waver, type Point } from './hand';

export interface Pool {
  /** The bank, a closed path around (0, 0) at the middle of the top. */
  bank: string;
  /** Lines that follow the bank, from the outermost in. */
  lines: string[];
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
  [VesselKind.UNSPECIFIED]: { tall: 1, half: rounded(2) },
  [VesselKind.FISH_TANK]: { tall: 0.98, half: rounded(3.1) },
  [VesselKind.SETTLER]: { tall: 1.3, half: funnel },
  [VesselKind.MEDIA_FILTER]: { tall: 0.92, half: rounded(7) },
  [VesselKind.PUMP_TANK]: { tall: 0.8, half: rounded(14) },
  [VesselKind.BED]: { tall: 4.2, half: rounded(16) },
  [VesselKind.RETURN_TANK]: { tall: 0.7, half: rounded(2.2) },
};

/** Distances of the lines from the bank, px: engravers let them grow apart. */
const distances = [4.5, 10, 16.5, 24, 33, 44];

/** Draws a vessel whose area on the page is given in px². */
export function pool(kind: VesselKind, area: number, seed: string): Pool {
  const shape = shapes[kind];
  const width = Math.sqrt(area / shape.tall);
  const height = Math.round(Math.max(14, width * shape.tall));
  const profile = Array.from({ length: height + 1 }, (_, y) => (shape.half(y / height) * width) / 2);
  const lines = distances.map((d) => eroded(profile, d)).filter((line) => line.some((h) => h > 1.5));
  return {
    bank: around(profile, seed, 0.9),
    lines: lines.map((line, i) => around(line, seed + i, 0.5)),
    profile,
    width,
    height,
  };
}

/** The profile of what lies further than d from the bank. */
function eroded(profile: readonly number[], d: number): number[] {
  const reach = Math.floor(d);
  return profile.map((_, y) => {
    let least = Infinity;
    for (let s = -reach; s <= reach; s++) {
      least = Math.min(least, (profile[y + s] ?? 0) - Math.sqrt(d * d - s * s));
    }
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

// What lies or lives in a pool, in single pen strokes: fish, gravel, sludge, air.
import { dice, type Point } from './hand';
import type { Pool } from './pool';

const r = (v: number): number => Math.round(v * 10) / 10;

/** Points that keep at least apart px from each other and margin px from the bank, at most `most` of them. */
export function scattered(pool: Pool, apart: number, margin: number, most: number, seed: string, from = 0): Point[] {
  const throws = dice(seed);
  const found = new Sown(apart);
  for (let tries = 0; found.points.length < most && tries < most * 30; tries++) {
    const y = margin + throws() * (pool.height - 2 * margin);
    if (y < from * pool.height) continue;
    const half = (pool.profile[Math.round(y)] ?? 0) - margin;
    if (half <= 0) continue;
    found.sow((throws() * 2 - 1) * half, y);
  }
  return found.points;
}

/** Points, and for each square which of them lie in it or beside it: most tries fail, and are soon told so. */
class Sown {
  readonly points: Point[] = [];
  private readonly near = new Map<number, Point[]>();

  constructor(private readonly apart: number) {}

  /** Puts a point down where none lies too near. */
  sow(x: number, y: number): void {
    const square = Math.floor(x / this.apart) + row * Math.floor(y / this.apart);
    for (const [a, b] of this.near.get(square) ?? []) if ((a - x) * (a - x) + (b - y) * (b - y) < this.apart * this.apart) return;
    this.points.push([x, y]);
    for (const down of [-row, 0, row]) for (const across of [-1, 0, 1]) this.tell(square + down + across, [x, y]);
  }

  private tell(square: number, point: Point): void {
    const there = this.near.get(square);
    if (there) there.push(point);
    else this.near.set(square, [point]);
  }
}

/** Squares from one row of them to the next: no pool is so wide. */
const row = 4096;

/** One stroke for a tenfold of fish, longer where they are heavier, all swimming round. */
export function flecks(pool: Pool, schools: readonly { count: number; grams: number }[], seed: string): string[] {
  const strokes = schools.map((s) => Math.round(s.count / 10) || (s.count > 0 ? 1 : 0));
  const room = Math.max(5, Math.min(13, Math.sqrt((pool.width * pool.height) / (1 + strokes.reduce((a, b) => a + b, 0))) * 0.75));
  const places = scattered(pool, room, 7, Math.min(160, strokes.reduce((a, b) => a + b, 0)), seed);
  const throws = dice(seed + 'turn');
  let next = 0;
  return schools.map((s, i) => {
    const mine = places.slice(next, next + strokes[i]!);
    next += strokes[i]!;
    const long = Math.max(3, Math.min(10, Math.cbrt(s.grams || 50) * 1.15));
    return mine.map((at) => fleck(at, pool, long, throws)).join('');
  });
}

function fleck([x, y]: Point, pool: Pool, long: number, throws: () => number): string {
  const turn = Math.atan2(y - pool.height / 2, x) + Math.PI / 2 + (throws() - 0.5) * 0.9;
  const dx = (Math.cos(turn) * long) / 2;
  const dy = (Math.sin(turn) * long) / 2;
  const bend = (throws() - 0.5) * long * 0.5;
  return `M${r(x - dx)} ${r(y - dy)}q${r(dx - dy * 0.2 + bend * 0.3)} ${r(dy + dx * 0.2 + bend * 0.3)} ${r(2 * dx)} ${r(2 * dy)}`;
}

/** Gravel: stones that nearly touch. */
export function gravel(pool: Pool, seed: string): string {
  const throws = dice(seed + 'stone');
  return scattered(pool, 6.4, 3.6, 260, seed)
    .map(([x, y]) => {
      const a = 2.1 + throws() * 1.5;
      const b = a * (0.62 + throws() * 0.3);
      const turn = Math.round(throws() * 180);
      return `M${r(x - a)} ${r(y)}a${r(a)} ${r(b)} ${turn} 1 0 ${r(2 * a)} 0a${r(a)} ${r(b)} ${turn} 1 0 ${r(-2 * a)} 0`;
    })
    .join('');
}

/** Sludge: dots that lie denser towards the bottom. */
export function sludge(pool: Pool, seed: string): string {
  const throws = dice(seed + 'sink');
  const dots = scattered(pool, 2.6, 2.5, 170, seed, 0.3).filter(([, y]) => throws() < (y / pool.height) ** 2.2 * 1.4);
  return dots.map(([x, y]) => `M${r(x)} ${r(y)}h0`).join('');
}

/** Air from a stone: rings that rise and widen. */
export function bubbles(pool: Pool, seed: string): { x: number; y: number; r: number }[] {
  const throws = dice(seed + 'air');
  const x = pool.width * 0.28;
  return [0.82, 0.7, 0.6, 0.47, 0.36].map((t, i) => ({ x: r(x + (throws() - 0.5) * 7), y: r(pool.height * t), r: r(1.3 + i * 0.45) }));
}

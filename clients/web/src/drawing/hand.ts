// A steady hand: every line wavers a little, and the same record always gives
// the same drawing.

/** A source of numbers from 0 to 1 that depends on the seed alone. */
export function dice(seed: string): () => number {
  let state = 2166136261;
  for (let i = 0; i < seed.length; i++) state = Math.imul(state ^ seed.charCodeAt(i), 16777619);
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** How far a line strays sideways at a length along it, in px: slow and never above reach. */
export function waver(throws: () => number, reach: number): (along: number) => number {
  const slow = throws() * 6.283;
  const quick = throws() * 6.283;
  return (along) => reach * (0.62 * Math.sin(along / 17 + slow) + 0.38 * Math.sin(along / 6.1 + quick));
}

export type Point = readonly [x: number, y: number];

const fixed = (v: number): string => (Math.round(v * 10) / 10).toString();

/** The points joined by curves through the middles between them. */
export function smooth(points: readonly Point[], closed: boolean): string {
  const [first, ...rest] = points;
  if (!first || rest.length === 0) return '';
  const start = closed ? middle(points[points.length - 1]!, first) : first;
  let d = `M${fixed(start[0])} ${fixed(start[1])}`;
  const turns = closed ? points : points.slice(1, -1);
  turns.forEach((p, i) => {
    const next = turns[i + 1] ?? (closed ? first : undefined);
    const to = next ? middle(p, next) : middle(p, points[points.length - 1]!);
    d += `Q${fixed(p[0])} ${fixed(p[1])} ${fixed(to[0])} ${fixed(to[1])}`;
  });
  if (closed) return d + 'Z';
  const end = points[points.length - 1]!;
  return `${d}L${fixed(end[0])} ${fixed(end[1])}`;
}

/** A straight stroke drawn by hand. */
export function stroke(from: Point, to: Point, throws: () => number, reach = 0.5): string {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const steps = Math.max(2, Math.round(length / 9));
  const stray = waver(throws, reach);
  const across: Point = [-(to[1] - from[1]) / length, (to[0] - from[0]) / length];
  return smooth(
    Array.from({ length: steps + 1 }, (_, i): Point => {
      const t = i / steps;
      const off = i === 0 || i === steps ? 0 : stray(t * length);
      return [from[0] + (to[0] - from[0]) * t + across[0] * off, from[1] + (to[1] - from[1]) * t + across[1] * off];
    }),
    false,
  );
}

function middle(a: Point, b: Point): Point {
  return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
}

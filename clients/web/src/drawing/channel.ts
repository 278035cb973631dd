// The running water between vessels, as a strip that repeats downwards.
import { dice, smooth, waver, type Point } from './hand';

/** Height after which the strip repeats, px. */
export const repeat = 214; // two turns of each wave of the hand, nearly: the joint does not show

export interface Channel {
  left: string;
  right: string;
  /** Water between the banks. */
  body: string;
  /** The thread of the current. */
  thread: string;
}

/** A channel of this half width around x, with banks that waver. */
export function channel(x: number, half: number, seed: string): Channel {
  const throws = dice(seed);
  const bank = (side: number, reach: number): Point[] => {
    const stray = waver(throws, reach);
    return Array.from({ length: repeat / 8 + 2 }, (_, i): Point => {
      const y = Math.min(repeat, i * 8);
      const ease = Math.min(1, y / 24, (repeat - y) / 24);
      return [x + side * half + ease * stray(y), y];
    });
  };
  const left = bank(-1, half > 8 ? 0.35 : 0.55);
  const right = bank(1, half > 8 ? 0.35 : 0.55);
  return {
    left: smooth(left, false),
    right: smooth(right, false),
    body: smooth([...left, ...[...right].reverse()], false) + 'Z',
    thread: smooth(bank(0, half * 0.22), false),
  };
}

/** Half the width of a channel that carries this flow, px: wider with its square root. */
export function halfWidth(flowLPerH: number, mostLPerH: number): number {
  if (!(flowLPerH > 0) || !(mostLPerH > 0)) return 3.5;
  return Math.max(2.5, 5.2 * Math.sqrt(flowLPerH / mostLPerH));
}

/** A bend from one lane to another within a height, as the middle line of the water. */
export function bend(from: number, to: number, top: number, height: number): string {
  const mid = top + height / 2;
  return `M${from} ${top}C${from} ${mid} ${to} ${mid} ${to} ${top + height}`;
}

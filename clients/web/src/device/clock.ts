import { create } from '@bufbuild/protobuf';

import { NotedSchema, type Noted } from '../gen/freshet/v1/change_pb';

/** What the device's clocks show. The server settles from it when an entry was made, also where the wall clock is wrong. */
export interface Clock {
  /** What goes into an operation or a call. */
  noted(): Noted;
  /** Wall clock, milliseconds since 1970 UTC. */
  now(): number;
}

// A browser tells nothing of the machine's boot, so this page's life stands for
// one. Its monotonic clock may stand still while the phone sleeps, which shows
// as the wall clock running ahead of it: that counts as another boot.
const asleep = 2000;

/** The clocks of this machine. */
export function thisMachine(): Clock {
  let boot = newBoot();
  let before = Date.now() - performance.now();
  return {
    now: () => Date.now(),
    noted() {
      const wall = Date.now();
      const monotonic = performance.now();
      const difference = wall - monotonic;
      if (difference > before + asleep) boot = newBoot();
      before = difference;
      return create(NotedSchema, {
        wallMs: BigInt(Math.round(wall)),
        monotonicMs: BigInt(Math.max(1, Math.round(monotonic))),
        bootId: boot,
        utcOffsetMinutes: -new Date(wall).getTimezoneOffset(),
      });
    },
  };
}

/** A clock that showed moment when it really was realMs, for records that were made then. */
export function since(momentMs: number, realMs = Date.now()): Clock {
  const machine = thisMachine();
  const now = () => momentMs + machine.now() - realMs;
  return {
    now,
    noted: () => create(NotedSchema, { ...machine.noted(), wallMs: BigInt(Math.round(now())) }),
  };
}

/** Below this a clock counts as right: a call takes time, and nobody's clock is exact. */
export const rightMs = 120_000;
// By so much only a clock that was set moves between two looks at the app.
const longMs = 30 * 86_400_000;

/** What the cooperative said of a clock. */
export interface Told {
  /** Server's clock less this one. */
  aheadMs: number;
  /** What this clock showed then. */
  atMs: number;
}

/**
 * A clock as the cooperative puts it right: what is dated "now" is of the right
 * day. What goes into an operation stays as the phone shows it, since the server
 * settles that. A clock that was set right meanwhile is believed again.
 */
export class Righted implements Clock {
  private told: Told = { aheadMs: 0, atMs: 0 };
  /** What the clock shows less what has gone by, when it was told. */
  private before = 0;

  constructor(private readonly shown: Clock, private readonly gone: () => number = () => performance.now()) {}

  /** Takes what the cooperative said, when it was said or as the app is opened again. */
  hear(told: Told): void {
    if (told.aheadMs === this.told.aheadMs && told.atMs === this.told.atMs) return;
    const now = this.shown.now();
    this.told = { aheadMs: Math.abs(told.aheadMs) > rightMs && !wasSet(told, now) ? told.aheadMs : 0, atMs: told.atMs };
    this.before = now - this.gone();
  }

  now(): number {
    const { aheadMs } = this.told;
    const moved = this.shown.now() - this.gone() - this.before;
    const set = Math.abs(moved) > longMs || Math.abs(moved - aheadMs) < rightMs;
    return this.shown.now() + (set ? 0 : aheadMs);
  }

  noted(): Noted {
    return this.shown.noted();
  }
}

/** Whether a clock was set while nobody looked: one that ran ahead shows less than it did, one far behind has leapt to where it should be. */
function wasSet({ aheadMs, atMs }: Told, now: number): boolean {
  return aheadMs < 0 ? now < atMs - rightMs : aheadMs > longMs && now - atMs > aheadMs - rightMs;
}

function newBoot(): number {
  return (crypto.getRandomValues(new Uint32Array(1))[0]! | 1) >>> 0;
}

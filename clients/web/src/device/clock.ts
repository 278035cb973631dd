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

function newBoot(): number {
  return (crypto.getRandomValues(new Uint32Array(1))[0]! | 1) >>> 0;
}

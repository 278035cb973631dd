import { create } from '@bufbuild/protobuf';
import { expect, test } from 'vitest';

import { NotedSchema } from '../gen/freshet/v1/change_pb';
import { Righted, type Clock } from './clock';

const minute = 60_000;
const day = 86_400_000;

/** A phone whose wall clock is off by so much, and can be set. */
class Phone {
  real = 20_000 * day;
  readonly shown: Clock = { now: () => this.real + this.off, noted: () => create(NotedSchema, { wallMs: BigInt(this.real + this.off) }) };
  readonly righted: Righted;

  constructor(public off: number, began = 20_000 * day) {
    this.righted = new Righted(this.shown, () => this.real - began);
  }

  told(off = this.off, agoMs = 0): void {
    this.righted.hear({ aheadMs: -off, atMs: this.real - agoMs + off });
  }
}

test.each([['slow by three days', -3 * day], ['fast by five years', 1825 * day], ['slow by ten minutes', -10 * minute]])('a clock that is %s dates right once the cooperative was heard, and notes what it shows', (_, off) => {
  const phone = new Phone(off);
  expect(phone.righted.now()).toBe(phone.real + off);
  phone.told();
  phone.real += 7 * minute;
  expect(phone.righted.now()).toBe(phone.real);
  expect(Number(phone.righted.noted().wallMs)).toBe(phone.real + off);
});

test('a clock that is a minute off is left alone', () => {
  const phone = new Phone(-minute);
  phone.told();
  expect(phone.righted.now()).toBe(phone.real - minute);
});

test.each([-3 * day, 2 * day])('a clock that is set right while the app is open is believed (it was off by %i ms)', (off) => {
  const phone = new Phone(off);
  phone.told();
  phone.real += 5 * minute;
  phone.off = 0;
  expect(phone.righted.now()).toBe(phone.real);
});

test('what was said of a clock is not said of what it was set to since', () => {
  const phone = new Phone(-1825 * day);
  phone.told();
  phone.off = 1825 * day;
  expect(phone.righted.now()).toBe(phone.real + 1825 * day);
});

test.each([-400 * day, 2 * day])('a clock that was set right while the app was shut is believed (it was off by %i ms)', (off) => {
  const phone = new Phone(0);
  phone.told(off, 10 * minute);
  expect(phone.righted.now()).toBe(phone.real);
});

test('a clock that was left wrong while the app was shut is put right as before', () => {
  const phone = new Phone(-3 * day);
  phone.told(-3 * day, 20 * day);
  expect(phone.righted.now()).toBe(phone.real);
});

test('a phone that slept keeps what it was told', () => {
  const phone = new Phone(-3 * day, 0);
  let slept = 0;
  const righted = new Righted(phone.shown, () => phone.real - slept);
  righted.hear({ aheadMs: 3 * day, atMs: phone.real - 3 * day });
  phone.real += 8 * 60 * minute;
  slept = 8 * 60 * minute; // its monotonic clock stood still
  expect(righted.now()).toBe(phone.real);
});

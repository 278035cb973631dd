// A change of a derived figure, split exactly among its inputs: each input's
// mean contribution over every order in which the inputs could have changed
// (Shapley 1953). The shares sum to the change.

/** Splits work(after) - work(before). Undefined where work cannot be asked at some mixture. At most 6 inputs. */
export function split(work: (inputs: readonly number[]) => number | undefined, before: readonly number[], after: readonly number[]): number[] | undefined {
  const n = before.length;
  const whole = Array.from({ length: 1 << n }, (_, set) => work(before.map((v, i) => (set & (1 << i) ? after[i]! : v))));
  if (whole.some((v) => v === undefined)) return undefined;
  return before.map((_, i) => {
    let share = 0;
    for (let set = 0; set < 1 << n; set++) {
      if (set & (1 << i)) continue;
      share += weight(bits(set), n) * (whole[set | (1 << i)]! - whole[set]!);
    }
    return share;
  });
}

/** In what share of all orders a set of this size has just come before. */
const weight = (size: number, n: number): number => (factorial(size) * factorial(n - size - 1)) / factorial(n);

const factorial = (n: number): number => (n < 2 ? 1 : n * factorial(n - 1));

const bits = (set: number): number => (set === 0 ? 0 : (set & 1) + bits(set >> 1));

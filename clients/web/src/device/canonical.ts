/** Turns a value in a unit and basis into the quantity's canonical unit. */
export function canonicalOf(_quantity: number, _unit: number, _basis: number): (value: number) => number {
  return (value) => value;
}

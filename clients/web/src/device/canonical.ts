import { quantityRows, type Form, type QuantityRow } from '../gen/quantities';

const rows = new Map(quantityRows.map((row) => [row.quantity, row]));
const forms = new Map(quantityRows.flatMap((row) => row.forms.map((form) => [key(row.quantity, form.unit, form.basis), form] as const)));

function key(quantity: number, unit: number, basis: number): number {
  return (quantity * 1000 + unit) * 1000 + basis;
}

/** What readings of a quantity may be and which units and bases it is given in; undefined for those of a later release. */
export function quantityRow(quantity: number): QuantityRow | undefined {
  return rows.get(quantity);
}

/** How a value in a unit and basis becomes the quantity's canonical one; NaN where the quantity is not given so. */
export function canonicalOf(quantity: number, unit: number, basis: number): (value: number) => number {
  const form = forms.get(key(quantity, unit, basis));
  if (!form) return () => NaN;
  return (value) => through(form, value, 0, 1);
}

/** The way back: how a canonical value is expressed in a unit and basis; NaN where the quantity is not given so. */
export function expressedIn(quantity: number, unit: number, basis: number): (canonical: number) => number {
  const form = forms.get(key(quantity, unit, basis));
  if (!form) return () => NaN;
  return (canonical) => (form.points ? through(form, canonical, 1, 0) : (canonical - form.offset) / form.scale);
}

function through(form: Form, value: number, from: 0 | 1, to: 0 | 1): number {
  if (!form.points) return value * form.scale + form.offset;
  const points = form.points;
  const after = points.findIndex((p) => p[from] >= value);
  if (after < 0 || (after === 0 && value < points[0]![from])) return NaN;
  if (after === 0) return points[0]![to];
  const [a, b] = [points[after - 1]!, points[after]!];
  return a[to] + ((value - a[from]) * (b[to] - a[to])) / (b[from] - a[from]);
}

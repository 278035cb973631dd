// Units a person reads. Inside everything is SI; here is the edge.
import { UnitSystem } from '../gen/freshet/v1/member_pb';

export type Kind = 'mass' | 'volume' | 'area' | 'temperature' | 'flow' | 'length' | 'yield' | 'areaMass' | 'waterForMass' | 'energyForMass' | 'workForMass';

/** One unit: shown = (si - zero) / scale, from the size on at which it is used. */
export interface UnitRow {
  symbol: string;
  scale: number;
  zero: number;
  from: number;
  digits: number;
}

const unit = (symbol: string, scale: number, from = 0, digits = 3, zero = 0): UnitRow => ({ symbol, scale, zero, from, digits });

/** By kind, smallest first. Base units: g, L, m2, degC, L/h, m, kg/m2, g/m2, L/kg, kWh/kg, h/kg. The US gallon is 231 cubic inches, the pound 453.59237 g. */
const metric: Record<Kind, UnitRow[]> = {
  mass: [unit('g', 1), unit('kg', 1000, 1000)],
  volume: [unit('mL', 0.001), unit('L', 1, 1)],
  area: [unit('m²', 1)],
  temperature: [unit('°C', 1)],
  flow: [unit('L/h', 1, 0, 4)],
  length: [unit('cm', 0.01), unit('m', 1, 1)],
  yield: [unit('kg/m²', 1, 0, 2)],
  areaMass: [unit('g/m²', 1)],
  waterForMass: [unit('L/kg', 1)],
  energyForMass: [unit('kWh/kg', 1)],
  workForMass: [unit('h/kg', 1)],
};

const american: Record<Kind, UnitRow[]> = {
  mass: [unit('oz', 28.349523125, 7), unit('lb', 453.59237, 453.59237)],
  volume: [unit('fl oz', 0.0295735295625), unit('gal', 3.785411784, 1.9)],
  area: [unit('ft²', 0.09290304)],
  temperature: [unit('°F', 5 / 9, 0, 3, -160 / 9)],
  flow: [unit('gal/h', 3.785411784, 0, 4)],
  length: [unit('in', 0.0254), unit('ft', 0.3048, 0.9)],
  yield: [unit('lb/ft²', 4.88242763638305, 0, 2)],
  areaMass: [unit('oz/ft²', 305.151727)],
  waterForMass: [unit('gal/lb', 3.785411784 / 0.45359237)],
  energyForMass: [unit('kWh/lb', 1 / 0.45359237)],
  workForMass: [unit('h/lb', 1 / 0.45359237)],
};

/** The units of a kind a person picks from. */
export function unitsOf(system: UnitSystem, kind: Kind): readonly UnitRow[] {
  return (system === UnitSystem.US_CUSTOMARY ? american : metric)[kind];
}

/** The unit in which a value of this size is written: what is too small for its system's smallest in the other's, as kitchen scales show a pinch in grams, never 0.035 oz. */
export function unitFor(system: UnitSystem, kind: Kind, si: number): UnitRow {
  const rows = unitsOf(system, kind);
  return rows.findLast((u) => Math.abs(si) >= u.from) ?? metric[kind][0]!;
}

export const shownIn = (u: UnitRow, si: number): number => (si - u.zero) / u.scale;

export const fromShown = (u: UnitRow, value: number): number => value * u.scale + u.zero;

// What a grower's test kit or meter may print, and the unit each reading is
// kept in. The numbers repeat husbandry/quantity, which the tests hold them to.
import { Basis, Quantity, Unit } from '../gen/freshet/v1/reading_pb';

/** A form in which a quantity is read: canonical = (read - zero) * factor. */
export interface Form {
  unit: Unit;
  basis: Basis;
  factor: number;
  zero: number;
}

export interface QuantityRow {
  /** The canonical form first. */
  forms: Form[];
  /** Asked about outside, canonical. */
  usual: readonly [number, number];
  /** Refused outside, canonical: no water or greenhouse gets there. */
  possible: readonly [number, number];
  /** Below nought is possible. */
  signed?: boolean;
  /** Read in words, 0 to 4. */
  words?: boolean;
}

const form = (unit: Unit, basis = Basis.UNSPECIFIED, factor = 1, zero = 0): Form => ({ unit, basis, factor, zero });

// Molar masses from the atomic weights of IUPAC 2021, g/mol.
const [H, C, N, O, P, Ca, Mg] = [1.008, 12.011, 14.007, 15.999, 30.974, 40.078, 24.305];
const caco3 = Ca + C + 3 * O;
const perDegree = (10 * caco3) / (Ca + O);

const dissolved = (molar: number): Form[] => [form(Unit.MG_PER_L), form(Unit.MMOL_PER_L, 0, molar), form(Unit.UG_PER_L, 0, 0.001)];
const temperature = [form(Unit.CELSIUS), form(Unit.FAHRENHEIT, 0, 1 / 1.8, 32)];
const hard = [
  form(Unit.MG_PER_L, Basis.AS_CACO3), form(Unit.DEGREES_KH, 0, perDegree), form(Unit.PPM_CACO3), form(Unit.MEQ_PER_L, 0, caco3 / 2), form(Unit.MMOL_PER_L, Basis.AS_CACO3, caco3),
];

export const quantities: Record<Exclude<Quantity, Quantity.UNSPECIFIED>, QuantityRow> = {
  [Quantity.WATER_TEMPERATURE]: { forms: temperature, usual: [4, 34], possible: [-2, 50], signed: true },
  [Quantity.AIR_TEMPERATURE]: { forms: temperature, usual: [-15, 45], possible: [-60, 65], signed: true },
  [Quantity.PH]: { forms: [form(Unit.NONE)], usual: [5.5, 8.6], possible: [2, 13] },
  [Quantity.TOTAL_AMMONIA]: {
    forms: [form(Unit.MG_PER_L, Basis.AS_N), form(Unit.MG_PER_L, Basis.AS_NH3, N / (N + 3 * H)), form(Unit.MG_PER_L, Basis.AS_NH4, N / (N + 4 * H))],
    usual: [0, 3], possible: [0, 200],
  },
  [Quantity.NITRITE]: { forms: [form(Unit.MG_PER_L, Basis.AS_N), form(Unit.MG_PER_L, Basis.AS_NO2, N / (N + 2 * O))], usual: [0, 2], possible: [0, 100] },
  [Quantity.NITRATE]: { forms: [form(Unit.MG_PER_L, Basis.AS_N), form(Unit.MG_PER_L, Basis.AS_NO3, N / (N + 3 * O))], usual: [0, 150], possible: [0, 1000] },
  [Quantity.DISSOLVED_OXYGEN]: { forms: [form(Unit.MG_PER_L)], usual: [4, 15], possible: [0, 40] },
  [Quantity.OXYGEN_SATURATION]: { forms: [form(Unit.PERCENT)], usual: [50, 120], possible: [0, 400] },
  [Quantity.ALKALINITY]: { forms: hard, usual: [20, 300], possible: [0, 2000] },
  [Quantity.HARDNESS]: { forms: hard.filter((f) => f.unit !== Unit.DEGREES_KH), usual: [20, 500], possible: [0, 7000] },
  [Quantity.CONDUCTIVITY]: { forms: [form(Unit.US_PER_CM), form(Unit.MS_PER_CM, 0, 1000)], usual: [50, 4000], possible: [0, 70000] },
  [Quantity.SALINITY]: { forms: [form(Unit.G_PER_KG)], usual: [0, 5], possible: [0, 40] },
  [Quantity.CARBON_DIOXIDE]: { forms: dissolved(C + 2 * O).slice(0, 2), usual: [0, 40], possible: [0, 500] },
  [Quantity.IRON]: { forms: dissolved(55.845), usual: [0, 5], possible: [0, 100] },
  [Quantity.PHOSPHATE]: { forms: [form(Unit.MG_PER_L, Basis.AS_P), form(Unit.MG_PER_L, Basis.AS_PO4, P / (P + 4 * O))], usual: [0, 30], possible: [0, 300] },
  [Quantity.POTASSIUM]: { forms: dissolved(39.098).slice(0, 2), usual: [0, 300], possible: [0, 2000] },
  [Quantity.CALCIUM]: { forms: [form(Unit.MG_PER_L), form(Unit.MG_PER_L, Basis.AS_CACO3, Ca / caco3)], usual: [5, 250], possible: [0, 1500] },
  [Quantity.MAGNESIUM]: { forms: [form(Unit.MG_PER_L), form(Unit.MG_PER_L, Basis.AS_CACO3, Mg / caco3)], usual: [1, 100], possible: [0, 2500] },
  [Quantity.CHLORINE]: { forms: [form(Unit.MG_PER_L)], usual: [0, 4], possible: [0, 20] },
  [Quantity.CHLORIDE]: { forms: dissolved(35.45).slice(0, 2), usual: [5, 500], possible: [0, 25000] },
  [Quantity.FLOW]: {
    forms: [form(Unit.L_PER_H), form(Unit.L_PER_MIN, 0, 60), form(Unit.GAL_PER_H, 0, 3.785411784), form(Unit.GAL_PER_MIN, 0, 227.12470704)],
    usual: [20, 50000], possible: [0, 1e6],
  },
  [Quantity.LEVEL]: { forms: [form(Unit.M), form(Unit.CM, 0, 0.01), form(Unit.IN, 0, 0.0254)], usual: [0.02, 3], possible: [0, 20] },
  [Quantity.LIGHT]: { forms: [form(Unit.UMOL_PER_M2_S), form(Unit.LUX, 0, 1 / 54)], usual: [0, 2200], possible: [0, 3000] },
  [Quantity.HUMIDITY]: { forms: [form(Unit.PERCENT)], usual: [15, 100], possible: [0, 100] },
  [Quantity.PRESSURE]: {
    forms: [form(Unit.HPA), form(Unit.KPA, 0, 10), form(Unit.MMHG, 0, 1.33322387415), form(Unit.INHG, 0, 33.863886666667)],
    usual: [650, 1050], possible: [500, 1100],
  },
  [Quantity.APPETITE]: { forms: [form(Unit.WORD)], usual: [2, 4], possible: [0, 4], words: true },
  [Quantity.CLARITY]: { forms: [form(Unit.WORD)], usual: [2, 4], possible: [0, 4], words: true },
};

/** The row of a quantity; undefined for one of a later release. */
export const rowOf = (q: Quantity): QuantityRow | undefined => quantities[q as keyof typeof quantities];

export const canonical = (f: Form, read: number): number => (read - f.zero) * f.factor;

export const express = (f: Form, value: number): number => value / f.factor + f.zero;

/** The form of a unit and basis, else the canonical one. */
export function formOf(q: Quantity, unit: Unit, basis: Basis): Form {
  const forms = rowOf(q)?.forms ?? [form(unit, basis)];
  return forms.find((f) => f.unit === unit && (f.basis === basis || basis === Basis.UNSPECIFIED)) ?? forms[0]!;
}

/** Tests in the order they are done at the water's edge. */
export const testOrder: readonly Quantity[] = [
  Quantity.WATER_TEMPERATURE, Quantity.DISSOLVED_OXYGEN, Quantity.PH, Quantity.TOTAL_AMMONIA, Quantity.NITRITE, Quantity.NITRATE, Quantity.ALKALINITY,
  Quantity.HARDNESS, Quantity.IRON, Quantity.POTASSIUM, Quantity.CALCIUM, Quantity.MAGNESIUM, Quantity.PHOSPHATE, Quantity.CONDUCTIVITY, Quantity.SALINITY,
  Quantity.CHLORINE, Quantity.CHLORIDE, Quantity.CARBON_DIOXIDE, Quantity.OXYGEN_SATURATION, Quantity.FLOW, Quantity.LEVEL, Quantity.APPETITE, Quantity.CLARITY,
  Quantity.AIR_TEMPERATURE, Quantity.HUMIDITY, Quantity.LIGHT, Quantity.PRESSURE,
];

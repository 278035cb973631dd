// Written by cmd/quantities from husbandry/quantity. Not to be edited.

/** A unit and basis in which a quantity may be given. */
export interface Form {
  unit: number;
  basis: number;
  /** Canonical value = value * scale + offset. */
  scale: number;
  offset: number;
  /** Instead, where the relation is no straight line: values and canonical values between which to interpolate. */
  points?: [value: number, canonical: number][];
}

/** What a reading of a quantity may be. Bounds are inclusive, in the canonical unit. */
export interface QuantityRow {
  quantity: number;
  name: string;
  unit: number;
  basis: number;
  /** Refused outside. */
  low: number;
  high: number;
  /** Asked about outside. */
  usualLow: number;
  usualHigh: number;
  /** The canonical form first. */
  forms: Form[];
}

export const quantityRows: QuantityRow[] = [
  {
    quantity: 1, name: 'water_temperature', unit: 2, basis: 0,
    low: -2, high: 50, usualLow: 4, usualHigh: 34,
    forms: [
      { unit: 2, basis: 0, scale: 1, offset: 0 },
      { unit: 3, basis: 0, scale: 0.555555555556, offset: -17.7777777778 },
      { unit: 28, basis: 0, scale: 1, offset: -273.15 },
    ],
  },
  {
    quantity: 2, name: 'air_temperature', unit: 2, basis: 0,
    low: -60, high: 65, usualLow: -15, usualHigh: 45,
    forms: [
      { unit: 2, basis: 0, scale: 1, offset: 0 },
      { unit: 3, basis: 0, scale: 0.555555555556, offset: -17.7777777778 },
      { unit: 28, basis: 0, scale: 1, offset: -273.15 },
    ],
  },
  {
    quantity: 3, name: 'ph', unit: 1, basis: 0,
    low: 2, high: 13, usualLow: 5.5, usualHigh: 8.6,
    forms: [
      { unit: 1, basis: 0, scale: 1, offset: 0 },
    ],
  },
  {
    quantity: 4, name: 'total_ammonia', unit: 4, basis: 1,
    low: 0, high: 200, usualLow: 0, usualHigh: 3,
    forms: [
      { unit: 4, basis: 1, scale: 1, offset: 0 },
      { unit: 4, basis: 2, scale: 0.822441430333, offset: 0 },
      { unit: 4, basis: 3, scale: 0.776484284051, offset: 0 },
      { unit: 5, basis: 1, scale: 0.001, offset: 0 },
      { unit: 5, basis: 2, scale: 0.000822441430333, offset: 0 },
      { unit: 5, basis: 3, scale: 0.000776484284051, offset: 0 },
      { unit: 6, basis: 0, scale: 14.007, offset: 0 },
      { unit: 6, basis: 1, scale: 14.007, offset: 0 },
    ],
  },
  {
    quantity: 5, name: 'nitrite', unit: 4, basis: 1,
    low: 0, high: 100, usualLow: 0, usualHigh: 2,
    forms: [
      { unit: 4, basis: 1, scale: 1, offset: 0 },
      { unit: 4, basis: 4, scale: 0.304466905771, offset: 0 },
      { unit: 5, basis: 1, scale: 0.001, offset: 0 },
      { unit: 5, basis: 4, scale: 0.000304466905771, offset: 0 },
      { unit: 6, basis: 0, scale: 14.007, offset: 0 },
      { unit: 6, basis: 1, scale: 14.007, offset: 0 },
    ],
  },
  {
    quantity: 6, name: 'nitrate', unit: 4, basis: 1,
    low: 0, high: 1000, usualLow: 0, usualHigh: 150,
    forms: [
      { unit: 4, basis: 1, scale: 1, offset: 0 },
      { unit: 4, basis: 5, scale: 0.225904780337, offset: 0 },
      { unit: 5, basis: 1, scale: 0.001, offset: 0 },
      { unit: 5, basis: 5, scale: 0.000225904780337, offset: 0 },
      { unit: 6, basis: 0, scale: 14.007, offset: 0 },
      { unit: 6, basis: 1, scale: 14.007, offset: 0 },
    ],
  },
  {
    quantity: 7, name: 'dissolved_oxygen', unit: 4, basis: 0,
    low: 0, high: 40, usualLow: 4, usualHigh: 15,
    forms: [
      { unit: 4, basis: 0, scale: 1, offset: 0 },
      { unit: 5, basis: 0, scale: 0.001, offset: 0 },
      { unit: 6, basis: 0, scale: 31.998, offset: 0 },
    ],
  },
  {
    quantity: 8, name: 'oxygen_saturation', unit: 9, basis: 0,
    low: 0, high: 400, usualLow: 50, usualHigh: 120,
    forms: [
      { unit: 9, basis: 0, scale: 1, offset: 0 },
    ],
  },
  {
    quantity: 9, name: 'alkalinity', unit: 4, basis: 6,
    low: 0, high: 2000, usualLow: 20, usualHigh: 300,
    forms: [
      { unit: 4, basis: 6, scale: 1, offset: 0 },
      { unit: 5, basis: 6, scale: 0.001, offset: 0 },
      { unit: 7, basis: 0, scale: 50.043, offset: 0 },
      { unit: 8, basis: 0, scale: 17.8479590563, offset: 0 },
      { unit: 29, basis: 0, scale: 1, offset: 0 },
      { unit: 29, basis: 1, scale: 1, offset: 0 },
      { unit: 29, basis: 2, scale: 1, offset: 0 },
      { unit: 29, basis: 3, scale: 1, offset: 0 },
      { unit: 29, basis: 4, scale: 1, offset: 0 },
      { unit: 29, basis: 5, scale: 1, offset: 0 },
      { unit: 29, basis: 6, scale: 1, offset: 0 },
      { unit: 29, basis: 7, scale: 1, offset: 0 },
      { unit: 29, basis: 8, scale: 1, offset: 0 },
    ],
  },
  {
    quantity: 10, name: 'hardness', unit: 4, basis: 6,
    low: 0, high: 7000, usualLow: 20, usualHigh: 500,
    forms: [
      { unit: 4, basis: 6, scale: 1, offset: 0 },
      { unit: 4, basis: 0, scale: 1, offset: 0 },
      { unit: 5, basis: 0, scale: 0.001, offset: 0 },
      { unit: 5, basis: 6, scale: 0.001, offset: 0 },
      { unit: 6, basis: 0, scale: 100.086, offset: 0 },
      { unit: 6, basis: 6, scale: 100.086, offset: 0 },
      { unit: 7, basis: 0, scale: 50.043, offset: 0 },
      { unit: 29, basis: 0, scale: 1, offset: 0 },
      { unit: 29, basis: 1, scale: 1, offset: 0 },
      { unit: 29, basis: 2, scale: 1, offset: 0 },
      { unit: 29, basis: 3, scale: 1, offset: 0 },
      { unit: 29, basis: 4, scale: 1, offset: 0 },
      { unit: 29, basis: 5, scale: 1, offset: 0 },
      { unit: 29, basis: 6, scale: 1, offset: 0 },
      { unit: 29, basis: 7, scale: 1, offset: 0 },
      { unit: 29, basis: 8, scale: 1, offset: 0 },
    ],
  },
  {
    quantity: 11, name: 'conductivity', unit: 10, basis: 0,
    low: 0, high: 70000, usualLow: 50, usualHigh: 4000,
    forms: [
      { unit: 10, basis: 0, scale: 1, offset: 0 },
      { unit: 11, basis: 0, scale: 1000, offset: 0 },
    ],
  },
  {
    quantity: 12, name: 'salinity', unit: 12, basis: 0,
    low: 0, high: 40, usualLow: 0, usualHigh: 5,
    forms: [
      { unit: 12, basis: 0, scale: 1, offset: 0 },
      { unit: 13, basis: 0, scale: 0, offset: 0, points: [[1, 0], [1.00047138396, 0.621497413609], [1.00094276793, 1.24476325109], [1.00141415189, 1.86901330063], [1.00188553586, 2.49396609799], [1.00235691982, 3.11945827336], [1.00282830379, 3.74537919104], [1.00329968775, 4.37164736891], [1.00377107172, 4.99819949635], [1.00424245568, 5.62498451237], [1.00471383965, 6.25196008619], [1.00518522361, 6.879090374], [1.00565660758, 7.50634451118], [1.00612799154, 8.13369555592], [1.0065993755, 8.76111972371], [1.00707075947, 9.38859581701], [1.00754214343, 10.0161047903], [1.0080135274, 10.6436294116], [1.00848491136, 11.2711539949], [1.00895629533, 11.8986641848], [1.00942767929, 12.5261467818], [1.00989906326, 13.1535895974], [1.01037044722, 13.7809813348], [1.01084183119, 14.408311488], [1.01131321515, 15.035570256], [1.01178459912, 15.6627484703], [1.01225598308, 16.2898375321], [1.01272736705, 16.9168293582], [1.01319875101, 17.5437163337], [1.01367013497, 18.1704912707], [1.01414151894, 18.7971473722], [1.0146129029, 19.4236781998], [1.01508428687, 20.0500776454], [1.01555567083, 20.6763399055], [1.0160270548, 21.3024594591], [1.01649843876, 21.9284310469], [1.01696982273, 22.554249653], [1.01744120669, 23.1799104884], [1.01791259066, 23.805408976], [1.01838397462, 24.4307407369], [1.01885535859, 25.0559015783], [1.01932674255, 25.6808874814], [1.01979812651, 26.3056945918], [1.02026951048, 26.9303192096], [1.02074089444, 27.5547577805], [1.02121227841, 28.179006888], [1.02168366237, 28.8030632459], [1.02215504634, 29.4269236912], [1.0226264303, 30.050585178], [1.02309781427, 30.674044771], [1.02356919823, 31.297299641], [1.0240405822, 31.9203470586], [1.02451196616, 32.5431843903], [1.02498335013, 33.1658090934], [1.02545473409, 33.7882187125], [1.02592611805, 34.4104108747], [1.02639750202, 35.0323832868], [1.02686888598, 35.6541337313], [1.02734026995, 36.2756600634], [1.02781165391, 36.8969602077], [1.02828303788, 37.5180321556], [1.02875442184, 38.1388739627], [1.02922580581, 38.7594837457], [1.02969718977, 39.3798596806], [1.03016857374, 40]] },
    ],
  },
  {
    quantity: 13, name: 'carbon_dioxide', unit: 4, basis: 0,
    low: 0, high: 500, usualLow: 0, usualHigh: 40,
    forms: [
      { unit: 4, basis: 0, scale: 1, offset: 0 },
      { unit: 5, basis: 0, scale: 0.001, offset: 0 },
      { unit: 6, basis: 0, scale: 44.009, offset: 0 },
    ],
  },
  {
    quantity: 14, name: 'iron', unit: 4, basis: 0,
    low: 0, high: 100, usualLow: 0, usualHigh: 5,
    forms: [
      { unit: 4, basis: 0, scale: 1, offset: 0 },
      { unit: 5, basis: 0, scale: 0.001, offset: 0 },
      { unit: 6, basis: 0, scale: 55.845, offset: 0 },
    ],
  },
  {
    quantity: 15, name: 'phosphate', unit: 4, basis: 7,
    low: 0, high: 300, usualLow: 0, usualHigh: 30,
    forms: [
      { unit: 4, basis: 7, scale: 1, offset: 0 },
      { unit: 4, basis: 8, scale: 0.326145098452, offset: 0 },
      { unit: 5, basis: 7, scale: 0.001, offset: 0 },
      { unit: 5, basis: 8, scale: 0.000326145098452, offset: 0 },
      { unit: 6, basis: 0, scale: 30.974, offset: 0 },
      { unit: 6, basis: 7, scale: 30.974, offset: 0 },
    ],
  },
  {
    quantity: 16, name: 'potassium', unit: 4, basis: 0,
    low: 0, high: 2000, usualLow: 0, usualHigh: 300,
    forms: [
      { unit: 4, basis: 0, scale: 1, offset: 0 },
      { unit: 5, basis: 0, scale: 0.001, offset: 0 },
      { unit: 6, basis: 0, scale: 39.098, offset: 0 },
    ],
  },
  {
    quantity: 17, name: 'calcium', unit: 4, basis: 0,
    low: 0, high: 1500, usualLow: 5, usualHigh: 250,
    forms: [
      { unit: 4, basis: 0, scale: 1, offset: 0 },
      { unit: 4, basis: 6, scale: 0.400435625362, offset: 0 },
      { unit: 5, basis: 0, scale: 0.001, offset: 0 },
      { unit: 5, basis: 6, scale: 0.000400435625362, offset: 0 },
      { unit: 6, basis: 0, scale: 40.078, offset: 0 },
      { unit: 29, basis: 0, scale: 0.400435625362, offset: 0 },
      { unit: 29, basis: 1, scale: 0.400435625362, offset: 0 },
      { unit: 29, basis: 2, scale: 0.400435625362, offset: 0 },
      { unit: 29, basis: 3, scale: 0.400435625362, offset: 0 },
      { unit: 29, basis: 4, scale: 0.400435625362, offset: 0 },
      { unit: 29, basis: 5, scale: 0.400435625362, offset: 0 },
      { unit: 29, basis: 6, scale: 0.400435625362, offset: 0 },
      { unit: 29, basis: 7, scale: 0.400435625362, offset: 0 },
      { unit: 29, basis: 8, scale: 0.400435625362, offset: 0 },
    ],
  },
  {
    quantity: 18, name: 'chlorine', unit: 4, basis: 0,
    low: 0, high: 20, usualLow: 0, usualHigh: 4,
    forms: [
      { unit: 4, basis: 0, scale: 1, offset: 0 },
      { unit: 5, basis: 0, scale: 0.001, offset: 0 },
    ],
  },
  {
    quantity: 19, name: 'chloride', unit: 4, basis: 0,
    low: 0, high: 25000, usualLow: 5, usualHigh: 500,
    forms: [
      { unit: 4, basis: 0, scale: 1, offset: 0 },
      { unit: 5, basis: 0, scale: 0.001, offset: 0 },
      { unit: 6, basis: 0, scale: 35.45, offset: 0 },
    ],
  },
  {
    quantity: 20, name: 'flow', unit: 14, basis: 0,
    low: 0, high: 1000000, usualLow: 20, usualHigh: 50000,
    forms: [
      { unit: 14, basis: 0, scale: 1, offset: 0 },
      { unit: 15, basis: 0, scale: 60, offset: 0 },
      { unit: 16, basis: 0, scale: 227.12470704, offset: 0 },
      { unit: 17, basis: 0, scale: 3.785411784, offset: 0 },
    ],
  },
  {
    quantity: 21, name: 'level', unit: 18, basis: 0,
    low: 0, high: 20, usualLow: 0.02, usualHigh: 3,
    forms: [
      { unit: 18, basis: 0, scale: 1, offset: 0 },
      { unit: 19, basis: 0, scale: 0.01, offset: 0 },
      { unit: 20, basis: 0, scale: 0.0254, offset: 0 },
    ],
  },
  {
    quantity: 22, name: 'light', unit: 21, basis: 0,
    low: 0, high: 3000, usualLow: 0, usualHigh: 2200,
    forms: [
      { unit: 21, basis: 0, scale: 1, offset: 0 },
      { unit: 22, basis: 0, scale: 0.0185185185185, offset: 0 },
    ],
  },
  {
    quantity: 23, name: 'humidity', unit: 9, basis: 0,
    low: 0, high: 100, usualLow: 15, usualHigh: 100,
    forms: [
      { unit: 9, basis: 0, scale: 1, offset: 0 },
    ],
  },
  {
    quantity: 24, name: 'pressure', unit: 23, basis: 0,
    low: 500, high: 1100, usualLow: 650, usualHigh: 1050,
    forms: [
      { unit: 23, basis: 0, scale: 1, offset: 0 },
      { unit: 24, basis: 0, scale: 10, offset: 0 },
      { unit: 25, basis: 0, scale: 1.33322368421, offset: -0.000000000000113686837722 },
      { unit: 26, basis: 0, scale: 33.8638864034, offset: 0 },
    ],
  },
  {
    quantity: 25, name: 'appetite', unit: 27, basis: 0,
    low: 0, high: 4, usualLow: 2, usualHigh: 4,
    forms: [
      { unit: 27, basis: 0, scale: 1, offset: 0 },
    ],
  },
  {
    quantity: 26, name: 'clarity', unit: 27, basis: 0,
    low: 0, high: 4, usualLow: 2, usualHigh: 4,
    forms: [
      { unit: 27, basis: 0, scale: 1, offset: 0 },
    ],
  },
  {
    quantity: 27, name: 'magnesium', unit: 4, basis: 0,
    low: 0, high: 2500, usualLow: 1, usualHigh: 100,
    forms: [
      { unit: 4, basis: 0, scale: 1, offset: 0 },
      { unit: 4, basis: 6, scale: 0.242841156605, offset: 0 },
      { unit: 5, basis: 0, scale: 0.001, offset: 0 },
      { unit: 5, basis: 6, scale: 0.000242841156605, offset: 0 },
      { unit: 6, basis: 0, scale: 24.305, offset: 0 },
      { unit: 29, basis: 0, scale: 0.242841156605, offset: 0 },
      { unit: 29, basis: 1, scale: 0.242841156605, offset: 0 },
      { unit: 29, basis: 2, scale: 0.242841156605, offset: 0 },
      { unit: 29, basis: 3, scale: 0.242841156605, offset: 0 },
      { unit: 29, basis: 4, scale: 0.242841156605, offset: 0 },
      { unit: 29, basis: 5, scale: 0.242841156605, offset: 0 },
      { unit: 29, basis: 6, scale: 0.242841156605, offset: 0 },
      { unit: 29, basis: 7, scale: 0.242841156605, offset: 0 },
      { unit: 29, basis: 8, scale: 0.242841156605, offset: 0 },
    ],
  },
];

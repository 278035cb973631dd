// What a grower's own tests print: the unit and basis of each quantity are
// remembered from the last reading of it.
import { quantityRow } from '../device/canonical';
import { Basis, Method, Quantity, Unit } from '../gen/freshet/v1/reading_pb';
import { UnitSystem } from '../gen/freshet/v1/member_pb';
import type { Book } from '../book/book';

/** How a quantity is read here. */
export interface Kit {
  unit: Unit;
  basis: Basis;
  method: Method;
}

/** Tests in the order they are done at the water's edge. */
export const testOrder: readonly Quantity[] = [
  Quantity.WATER_TEMPERATURE, Quantity.DISSOLVED_OXYGEN, Quantity.PH, Quantity.TOTAL_AMMONIA, Quantity.NITRITE, Quantity.NITRATE, Quantity.ALKALINITY,
  Quantity.HARDNESS, Quantity.IRON, Quantity.POTASSIUM, Quantity.CALCIUM, Quantity.MAGNESIUM, Quantity.PHOSPHATE, Quantity.CONDUCTIVITY, Quantity.SALINITY,
  Quantity.CHLORINE, Quantity.CHLORIDE, Quantity.CARBON_DIOXIDE, Quantity.OXYGEN_SATURATION, Quantity.FLOW, Quantity.LEVEL, Quantity.APPETITE, Quantity.CLARITY,
  Quantity.AIR_TEMPERATURE, Quantity.HUMIDITY, Quantity.LIGHT, Quantity.PRESSURE,
];

export const inWords = (q: Quantity): boolean => q === Quantity.APPETITE || q === Quantity.CLARITY;

/** The kit a quantity was last read with by hand, here or elsewhere, else what most kits print. */
export function kitOf(book: Book, quantity: Quantity, placeId: string, system: UnitSystem): Kit {
  const read = book.newest.filter((n) => n.quantity === quantity && n.entry.body.method !== Method.PROBE);
  const last = read.find((n) => n.placeId === placeId) ?? read.sort((a, b) => b.entry.at - a.entry.at)[0];
  if (last) return { unit: last.entry.body.unit, basis: last.entry.body.basis, method: last.entry.body.method };
  return { ...usualForm(quantity, system), method: inWords(quantity) ? Method.EYE : Method.UNSPECIFIED };
}

function usualForm(quantity: Quantity, system: UnitSystem): { unit: Unit; basis: Basis } {
  if (quantity === Quantity.WATER_TEMPERATURE || quantity === Quantity.AIR_TEMPERATURE) {
    return { unit: system === UnitSystem.US_CUSTOMARY ? Unit.FAHRENHEIT : Unit.CELSIUS, basis: Basis.UNSPECIFIED };
  }
  const [first] = formsOf(quantity);
  return first ?? { unit: Unit.NONE, basis: Basis.UNSPECIFIED };
}

/** The units and bases a person may pick: those that hand tests print. */
export function formsOf(quantity: Quantity): { unit: Unit; basis: Basis }[] {
  const rare = new Set([Unit.KELVIN, Unit.UG_PER_L, Unit.MMOL_PER_L, Unit.SPECIFIC_GRAVITY]);
  const forms = (quantityRow(quantity)?.forms ?? []).filter((f) => !rare.has(f.unit)).map(({ unit, basis }) => ({ unit, basis }));
  const several = new Set(forms.map((f) => f.unit)).size < forms.length;
  return several ? forms.filter((f) => f.basis !== Basis.UNSPECIFIED || forms.filter((g) => g.unit === f.unit).length === 1) : forms;
}

/** Minutes that a colour needs to come up; common practice, no source: the kit's own leaflet outranks it. */
export const waits: Partial<Record<Quantity, number>> = { [Quantity.TOTAL_AMMONIA]: 5, [Quantity.NITRITE]: 5, [Quantity.NITRATE]: 5, [Quantity.PHOSPHATE]: 5 };

// What a record asks, field by field. Bounds are the contract's own.
import { getOption } from '@bufbuild/protobuf';

import type { Desk } from '../desk.svelte';
import { recordField, type RecordKind } from '../device/kinds';
import { BedKind } from '../gen/freshet/v1/bed_pb';
import { CohortPurpose } from '../gen/freshet/v1/cohort_pb';
import { EquipmentKind } from '../gen/freshet/v1/equipment_pb';
import { limits } from '../gen/freshet/v1/limits_pb';
import { VesselKind } from '../gen/freshet/v1/vessel_pb';
import { cropName } from '../words/names';
import type { Kind as Measure } from '../words/units';

/** Records that a person writes by hand, one form each. */
export type Built = 'site' | 'vessel' | 'bed' | 'cohort' | 'equipment' | 'feed' | 'crop';

export interface Field {
  name: string;
  type: 'text' | 'number' | 'pick' | 'yes' | 'frost';
  measure?: Measure;
  /** A unit that is the same everywhere. */
  unit?: string;
  options?: (desk: Desk) => { value: string | number; words: string }[];
  optional?: boolean;
}

const text = (name: string): Field => ({ name, type: 'text' });
const number = (name: string, rest: Partial<Field> = {}): Field => ({ name, type: 'number', optional: true, ...rest });
const pick = (name: string, options: Field['options'], rest: Partial<Field> = {}): Field => ({ name, type: 'pick', ...rest, ...(options && { options }) });

const listed = (words: Record<number, string>, values: readonly number[]): { value: number; words: string }[] => values.map((value) => ({ value, words: words[value]! }));
const vessels = (kind?: VesselKind) => ({ book }: Desk) => book!.loops.flatMap((l) => l.vessels.filter((v) => kind === undefined || v.kind === kind).map((v) => ({ value: v.id, words: v.name })));

export const forms: Record<Built, Field[]> = {
  site: [text('name'), number('elevationM', { measure: 'length' }), { name: 'lastFrost', type: 'frost', optional: true }, { name: 'firstFrost', type: 'frost', optional: true }, number('householdPeople'), number('sourceAlkalinityMgPerL', { unit: 'mg/L CaCO₃' }), number('sourceNitrateMgPerL', { unit: 'mg/L N' })],
  vessel: [text('name'), pick('kind', ({ t }) => listed(t.vessel, [1, 2, 3, 4, 5, 6])), number('volumeL', { measure: 'volume', optional: false }), pick('after', vessels()), number('flowLPerH', { measure: 'flow' }), number('mediaVolumeL', { measure: 'volume' }), number('mediaSpecificSurfaceM2PerM3', { unit: 'm²/m³' })],
  bed: [text('name'), pick('kind', ({ t }) => listed(t.bedKind, [BedKind.MEDIA, BedKind.RAFT, BedKind.CHANNEL, BedKind.SOIL, BedKind.POT, BedKind.TRAY])), number('areaM2', { measure: 'area', optional: false }), pick('vesselId', (desk) => [...vessels(VesselKind.BED)(desk), { value: '', words: desk.t.stream.bank }], { optional: true }), { name: 'covered', type: 'yes', optional: true }],
  cohort: [text('name'), pick('species', ({ t }) => Object.entries(t.species).map(([value, words]) => ({ value, words }))), pick('vesselId', vessels(VesselKind.FISH_TANK)), pick('purpose', ({ t }) => listed(t.purpose, [CohortPurpose.TABLE, CohortPurpose.SENTINEL, CohortPurpose.BREEDING])), number('targetWeightG', { measure: 'mass' })],
  equipment: [text('name'), pick('kind', ({ t }) => listed(t.equipmentKind, [EquipmentKind.PUMP, EquipmentKind.AERATOR, EquipmentKind.HEATER, EquipmentKind.LIGHT])), pick('vesselId', vessels()), number('powerW', { unit: 'W' }), { name: 'onBackup', type: 'yes', optional: true }],
  feed: [text('name'), number('proteinPercent', { unit: '%', optional: false })],
  crop: [pick('crop', ({ t, book }) => Object.keys(t.crop).map((value) => ({ value, words: cropName(t, book!.crops, value) })).sort((a, b) => a.words.localeCompare(b.words))), number('useKgPerWeek', { measure: 'mass', optional: false })],
};

/** Fields kept in kilograms where the person's units begin at grams. */
const inKilograms = new Set(['useKgPerWeek']);

/** What one of the field's own unit is in the measure's base unit. */
export const base = (field: Field): number => (inKilograms.has(field.name) ? 1000 : 1);

/** The contract's bounds of a field, where it has any. */
export function boundsOf(kind: RecordKind, name: string): { low: number; high: number } | undefined {
  const field = recordField(kind).message.fields.find((f) => f.localName === name);
  const l = field && getOption(field, limits);
  return l && l.high > l.low ? { low: l.low, high: l.high } : undefined;
}

// What can be noted, and what each note asks: one number first, the rest by tapping.
import type { EventKind } from '../device/kinds';
import { VesselKind } from '../gen/freshet/v1/vessel_pb';
import type { Place } from '../book/book';
import type { Kind as Measure } from '../words/units';

/** A number to type. */
export interface NumberField {
  name: string;
  /** In the person's units; a plain count where it is left out. */
  measure?: Measure;
  optional?: boolean;
  /** Below nought is possible. */
  signed?: boolean;
}

/** One of several to tap. The catalogue's words of that name are offered. */
export interface ChoiceField {
  name: string;
  words: 'cause' | 'pulledFor' | 'substance' | 'use' | 'upkeep' | 'incident' | 'waterSource';
  optional?: boolean;
}

export interface NoteKind {
  kind: Exclude<EventKind, 'reading' | 'correction'>;
  /** Whom or what it is about. */
  about?: 'cohort' | 'vessel' | 'planting' | 'produce';
  /** A second cohort: where fish go. */
  to?: boolean;
  numbers: NumberField[];
  choices: ChoiceField[];
  /** Words that may be written, and are asked for where there is nothing else. */
  text?: string;
}

const count: NumberField = { name: 'count' };
const mass = (optional = false): NumberField => ({ name: 'massG', measure: 'mass', optional });
const volume: NumberField = { name: 'volumeL', measure: 'volume' };

/** Every kind of event but readings, which have a page of their own. */
export const noteKinds: readonly NoteKind[] = [
  { kind: 'feeding', about: 'cohort', numbers: [mass(), { name: 'leftG', measure: 'mass', optional: true }], choices: [] },
  { kind: 'death', about: 'cohort', numbers: [count], choices: [{ name: 'suspectedCause', words: 'cause', optional: true }] },
  { kind: 'weighing', about: 'cohort', numbers: [{ name: 'sampleCount' }, mass()], choices: [] },
  { kind: 'count', about: 'cohort', numbers: [count], choices: [] },
  { kind: 'stocking', about: 'cohort', numbers: [count, mass(true)], choices: [] },
  { kind: 'move', about: 'cohort', to: true, numbers: [count, mass(true)], choices: [] },
  { kind: 'fishHarvest', about: 'cohort', numbers: [count, mass()], choices: [] },
  { kind: 'bedHarvest', about: 'planting', numbers: [mass(), { name: 'piecesCount', optional: true }], choices: [] },
  { kind: 'sowing', about: 'planting', numbers: [{ name: 'areaM2', measure: 'area' }, { name: 'seedsCount', optional: true }], choices: [] },
  { kind: 'transplanting', about: 'planting', numbers: [{ name: 'plantsCount' }], choices: [] },
  { kind: 'pulling', about: 'planting', numbers: [mass(true)], choices: [{ name: 'reason', words: 'pulledFor' }] },
  { kind: 'dosing', about: 'vessel', numbers: [mass()], choices: [{ name: 'substance', words: 'substance' }], text: 'words' },
  { kind: 'treatment', about: 'planting', numbers: [{ name: 'volumeMl', optional: true }], choices: [{ name: 'substance', words: 'substance' }], text: 'against' },
  { kind: 'waterIn', about: 'vessel', numbers: [volume], choices: [{ name: 'source', words: 'waterSource', optional: true }] },
  { kind: 'waterOut', about: 'vessel', numbers: [volume], choices: [] },
  { kind: 'solidsOut', about: 'vessel', numbers: [volume], choices: [], text: 'wentTo' },
  { kind: 'disposition', about: 'produce', numbers: [mass(), { name: 'piecesCount', optional: true }], choices: [{ name: 'use', words: 'use' }], text: 'hadForIt' },
  { kind: 'upkeep', about: 'vessel', numbers: [], choices: [{ name: 'kind', words: 'upkeep' }], text: 'words' },
  { kind: 'incident', about: 'vessel', numbers: [], choices: [{ name: 'kind', words: 'incident' }], text: 'words' },
  { kind: 'labour', numbers: [{ name: 'minutes' }], choices: [], text: 'task' },
  { kind: 'energy', numbers: [{ name: 'energyKwh' }], choices: [] },
  { kind: 'expense', numbers: [{ name: 'amountMinor', signed: true }], choices: [], text: 'category' },
  { kind: 'note', numbers: [], choices: [], text: 'text' },
  { kind: 'photo', numbers: [], choices: [], text: 'caption' },
];

export const noteKind = (name: string | undefined): NoteKind | undefined => noteKinds.find((k) => k.kind === name);

type Listed = NoteKind['kind'] | 'reading';

const atFish: Listed[] = ['reading', 'feeding', 'death', 'weighing', 'fishHarvest', 'waterIn', 'dosing', 'incident', 'stocking', 'count', 'move', 'upkeep', 'waterOut', 'note', 'photo'];
const atFilter: Listed[] = ['upkeep', 'solidsOut', 'reading', 'waterIn', 'dosing', 'incident', 'waterOut', 'note', 'photo'];
const atBed: Listed[] = ['bedHarvest', 'sowing', 'pulling', 'treatment', 'transplanting', 'upkeep', 'incident', 'reading', 'note', 'photo'];
const anywhere: Listed[] = ['disposition', 'labour', 'energy', 'expense', 'incident', 'note', 'photo'];

/** What is noted at a place, the usual first. */
export function listedAt(place: Place | undefined): Listed[] {
  if (place?.bed) return atBed;
  if (!place?.vessel) return anywhere;
  if (place.vessel.kind === VesselKind.FISH_TANK) return atFish;
  return place.vessel.kind === VesselKind.BED ? ['reading', ...atFilter.filter((k) => k !== 'reading')] : atFilter;
}


import { create, fromBinary, toBinary, type Message } from '@bufbuild/protobuf';
import { reflect, type ReflectMessage } from '@bufbuild/protobuf/reflect';

import type { Edit } from '../gen/freshet/v1/change_pb';
import type { KeptRecord } from './database';
import { recordField, recordKindOf } from './kinds';

/** Says when and by which install a field was set. */
export type Stamp = [ms: number, install: string];

/** Tells whether an edit wins over what was set before: the later one, between equal times the greater install. */
export function beats(edit: Stamp, before: Stamp): boolean {
  return edit[0] !== before[0] ? edit[0] > before[0] : edit[1] >= before[1];
}

/** A record as its edits leave it. */
export interface Merged {
  kind: number;
  scope: string;
  siteId: string;
  removed: boolean;
  message: Message;
  stamps: Record<string, Stamp>;
}

/** A record before its first edit; undefined for kinds of a later release. */
export function newMerged(edit: Edit, scope: string): Merged | undefined {
  if (edit.record.case === undefined) return undefined;
  const field = recordField(edit.record.case);
  return { kind: field.number, scope, siteId: edit.siteId, removed: false, message: create(field.message), stamps: {} };
}

/** Merges an edit field by field; false where it names a field that this release does not know. */
export function mergeEdit(merged: Merged, edit: Edit, at: Stamp): boolean {
  if (edit.record.case === undefined || recordField(edit.record.case).number !== merged.kind) return false;
  const schema = recordField(edit.record.case).message;
  const into: ReflectMessage = reflect(schema, merged.message);
  const given: ReflectMessage = reflect(schema, edit.record.value as Message);
  let whole = true;
  for (const path of edit.fields?.paths ?? []) {
    const field = schema.fields.find((f) => f.name === path);
    if (!field) {
      whole = false;
      continue;
    }
    const before = merged.stamps[path];
    if (before && !beats(at, before)) continue;
    merged.stamps[path] = at;
    if (given.isSet(field)) into.set(field, given.get(field) as never);
    else into.clear(field);
  }
  return whole;
}

/** Reads a record of the copy. */
export function readMerged(kept: KeptRecord): Merged | undefined {
  const kind = recordKindOf(kept.kind);
  if (!kind) return undefined;
  const { scope, siteId, removed, stamps } = kept;
  return { kind: kept.kind, scope, siteId, removed, stamps, message: fromBinary(recordField(kind).message, kept.body) };
}

/** Writes a record as it is kept in the copy. */
export function writeMerged(id: string, merged: Merged): KeptRecord {
  const { kind, scope, siteId, removed, stamps, message } = merged;
  return { id, kind, scope, siteId, removed, stamps, body: toBinary(recordField(recordKindOf(kind)!).message, message) };
}

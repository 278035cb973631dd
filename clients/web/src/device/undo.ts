import type { Operation } from '../gen/freshet/v1/change_pb';
import type { Database } from './database';
import type { Draft } from './draft';
import { waitingEntry } from './entries';
import { factFrom } from './facts';
import { idOf, type Install } from './ids';
import type { FieldsOf, RecordKind } from './kinds';
import type { Reader } from './reader';
import type { Recorded } from './view';

/** How long an entry can be taken back as if it had not been made, ms: so long it is not sent. */
export const undoMs = 10_000;

/**
 * Takes the newest operations out of the outbox, where nothing came after them
 * and they were never sent: their numbers are given out again. False where they
 * must be corrected instead.
 */
export async function takeBack(db: Database, first: number, last: number): Promise<boolean> {
  const tx = db.transaction(['facts', 'outbox'], 'readwrite', { durability: 'strict' });
  const facts = tx.objectStore('facts');
  const [next, attempted] = await Promise.all([factFrom(facts, 'next'), factFrom(facts, 'attempted')]);
  const possible = next === last + 1 && attempted < first;
  if (possible) await Promise.all([tx.objectStore('outbox').delete(IDBKeyRange.bound(first, last)), facts.put(first, 'next')]);
  await tx.done;
  return possible;
}

/** Drafts what undoes operations: events are voided, new records removed, fields set as they were before. */
export async function drawBack(reader: Reader, operations: readonly Operation[], install: Install): Promise<(draft: Draft) => void> {
  const steps: ((draft: Draft) => void)[] = [];
  const numbers = new Set(operations.map((op) => Number(op.number)));
  for (const op of [...operations].reverse()) {
    const number = Number(op.number);
    const entry = waitingEntry({ op, number }, install, 0);
    if (entry) steps.push((draft) => draft.void(entry));
    if (op.change.case !== 'edit' || op.change.value.record.case === undefined) continue;
    const { recordId, record, fields } = op.change.value;
    const kind: RecordKind = record.case;
    const now = await reader.record(kind, recordId);
    const before = (await reader.recordsWithout(kind, numbers)).find((r) => r.id === recordId);
    if (!now) continue;
    if (recordId === idOf(install, number) || !before) steps.push((draft) => draft.remove(now));
    else steps.push((draft) => draft.set(now as Recorded<RecordKind>, fieldsOf(before, fields?.paths ?? [])));
  }
  return (draft) => steps.forEach((step) => step(draft));
}

// The values that named fields have in a record.
function fieldsOf(record: Recorded, paths: readonly string[]): FieldsOf<RecordKind> {
  const camel = (path: string) => path.replace(/_([a-z0-9])/g, (_, letter: string) => letter.toUpperCase());
  const value = record.value as unknown as Record<string, unknown>;
  return Object.fromEntries(paths.map((path) => [camel(path), value[camel(path)]]));
}

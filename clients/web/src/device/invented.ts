import { fromBinary } from '@bufbuild/protobuf';
import { BinaryReader } from '@bufbuild/protobuf/wire';

import { HelloResponseSchema, PullResponseSchema, type HelloResponse, type PullResponse } from '../gen/freshet/v1/sync_service_pb';
import { since, type Clock } from './clock';
import type { Database } from './database';
import type { Install } from './ids';
import { applySteps } from './replica';

// Written by `freshetd demo --keep`.
const file = 'invented.bin';

// How long what was noted among the invented records stays. Later the story begins anew.
const keptMs = 86_400_000;

/**
 * Fills a notebook with the invented records, for looking around without a
 * server. Gives a clock that goes on from the moment they end at.
 */
export async function fillInvented(db: Database, install: Install): Promise<Clock> {
  const began = (await db.get('facts', 'began')) as Began | undefined;
  if (began && Date.now() - began.realMs < keptMs) return since(began.momentMs, began.realMs);
  const [hello, ...steps] = await read();
  await Promise.all([...db.objectStoreNames].filter((name) => name !== 'facts').map((name) => db.clear(name)));
  await applySteps(db, install, steps);
  const now: Began = { momentMs: Number(hello.serverMs), realMs: Date.now() };
  const facts = db.transaction('facts', 'readwrite');
  await Promise.all([
    facts.store.put(hello.cooperativeId, 'cooperativeId'),
    facts.store.put(hello.memberId, 'memberId'),
    facts.store.put(now, 'began'),
    facts.done,
  ]);
  return since(now.momentMs, now.realMs);
}

interface Began {
  momentMs: number;
  realMs: number;
}

async function read(): Promise<[HelloResponse, ...PullResponse[]]> {
  const answer = await fetch(file);
  if (!answer.ok) throw new Error(`${file}: ${answer.status}`);
  const messages = cut(new Uint8Array(await answer.arrayBuffer()));
  return [fromBinary(HelloResponseSchema, messages[0]!), ...messages.slice(1).map((m) => fromBinary(PullResponseSchema, m))];
}

// Messages that each stand behind their length.
function cut(bytes: Uint8Array): Uint8Array[] {
  const messages = [];
  const reader = new BinaryReader(bytes);
  while (reader.pos < reader.len) messages.push(reader.bytes());
  return messages;
}

import { fromBinary } from '@bufbuild/protobuf';

import { PagesSchema, type Pages, type PullResponse } from '../gen/freshet/v1/sync_service_pb';
import { callMs, type Calls } from './calls';
import type { Database } from './database';
import { fact } from './facts';
import type { Install } from './ids';
import { lastOf } from './outbox';
import { schemaOfDense } from './wire/dense';
import { applySteps, type Applied } from './replica';
import { TroubleError, understand } from './trouble';

// Pages are committed together until so many bytes have come: a commit waits
// for the disk, a page alone does not pay for it.
const commitBytes = 1 << 20;
// The first commit is small, and those after it grow: settings come first, and
// are read on a slow line while years of readings still come.
const firstCommitBytes = 32 << 10;

/**
 * Fetches what is new, and goes on where it was as long as a stream that broke
 * off brought something. A scope whose copy does not fit the server's is dropped
 * and read anew, once. Calls heed after each commit.
 */
export async function pull(db: Database, calls: Calls, own: Install, heed: (applied: Applied) => void, signal: AbortSignal): Promise<void> {
  let again = false;
  for (;;) {
    const stream = await pullOnce(db, calls, own, heed, signal);
    if (stream.broke) {
      if (stream.pages === 0) throw stream.broke;
      continue;
    }
    if (stream.broken.length === 0) return;
    if (again) {
      throw new TroubleError({ words: "the copy differed from the co-op's again after it was read anew", reason: 'DIGEST', hint: 'tell your steward', noSignal: true });
    }
    again = true;
  }
}

/** What one stream brought. */
interface Streamed {
  /** New pages. */
  pages: number;
  /** Scopes whose copies were not the server's. */
  broken: string[];
  /** Why it ended before everything had come. */
  broke?: TroubleError;
}

/** Reads one stream to its end. */
async function pullOnce(db: Database, calls: Calls, own: Install, heed: (applied: Applied) => void, signal: AbortSignal): Promise<Streamed> {
  const cursors = await cursorsOf(db);
  const silence = new Silence(signal);
  const streamed: Streamed = { pages: 0, broken: [] };
  let caughtUp = false;
  let steps: PullResponse[] = [];
  let bytes = 0;
  let limit = firstCommitBytes;
  const commit = async () => {
    if (steps.length === 0) return;
    const applied = await applySteps(db, own, steps);
    [steps, bytes] = [[], 0];
    streamed.pages += applied.pages;
    streamed.broken.push(...applied.broken);
    caughtUp ||= applied.caughtUp;
    heed(applied);
  };
  try {
    for await (const step of calls.sync.pull({ cursors, schema: pagesRead() }, { signal: silence.signal })) {
      silence.broken();
      if (step.step.case === 'pages') await unpackPages(step.step.value);
      steps.push(step);
      bytes += 256 + bytesOf(step);
      if (bytes >= limit) {
        await commit();
        limit = Math.min(4 * limit, commitBytes);
      }
    }
  } catch (error) {
    streamed.broke = understand(error);
  } finally {
    silence.end();
  }
  await commit(); // what came before a cut is kept
  if (caughtUp) delete streamed.broke; // nothing was to come any more
  else streamed.broke ??= new TroubleError({ words: "the co-op's server stopped half-way", reason: 'NO_ANSWER', hint: 'it is tried again', noSignal: true });
  return streamed;
}

function bytesOf({ step }: PullResponse): number {
  if (step.case === 'page') return step.value.block.length;
  return step.case === 'pages' ? step.value.blocks.reduce((sum, block) => sum + block.length, 0) : 0;
}

// The schema that pull reads: pages come packed from the second on, and not every browser unpacks.
function pagesRead(): number {
  try {
    new DecompressionStream('deflate-raw');
    return schemaOfDense;
  } catch {
    return 1;
  }
}

/** Puts a step's blocks in the place of what they were packed to. */
export async function unpackPages(pages: Pages): Promise<void> {
  if (pages.packed.length === 0) return;
  const plain = new Blob([pages.packed.slice()]).stream().pipeThrough(new DecompressionStream('deflate-raw'));
  const bytes = new Uint8Array(await new Response(plain).arrayBuffer());
  pages.blocks = fromBinary(PagesSchema, bytes).blocks;
  pages.packed = new Uint8Array();
}

// How much of a chain a question needs to name.
const chainEnough = 8;

/**
 * How far each scope was read. Scopes of own entries that nothing was ever read of
 * are named too: they may be gone. Those of entries that never arrived are not: the
 * site may be made by them.
 */
async function cursorsOf(db: Database): Promise<{ scope: string; epoch: bigint; sequence: bigint; chain: Uint8Array }[]> {
  const enough = (await fact(db, 'serverSchema')) >= schemaOfDense ? chainEnough : Infinity;
  const arrived = Math.max(await fact(db, 'arrived'), await fact(db, 'through'));
  const cursors = (await db.getAll('cursors')).map(({ scope, epoch, sequence, chain }) => ({ scope, epoch: BigInt(epoch), sequence: BigInt(sequence), chain: chain.slice(0, enough) }));
  const read = new Set(cursors.map((c) => c.scope));
  // What came back was read: its scope has a cursor.
  const sent = (await db.getAllFromIndex('outbox', 'echoed', 0)).filter((p) => lastOf(p) <= arrived && !read.has(p.scope));
  const unread = [...new Set(sent.map((p) => p.scope))].map((scope) => ({ scope, epoch: 0n, sequence: 0n, chain: new Uint8Array() }));
  return [...cursors, ...unread];
}

/** Ends a stream that says nothing for too long: half an answer must not hold everything up. */
export class Silence {
  private readonly controller = new AbortController();
  private timer: ReturnType<typeof setTimeout>;

  constructor(outer: AbortSignal, private readonly ms = callMs) {
    outer.addEventListener('abort', () => this.controller.abort(outer.reason), { signal: this.controller.signal });
    if (outer.aborted) this.controller.abort(outer.reason);
    this.timer = this.wait();
  }

  get signal(): AbortSignal {
    return this.controller.signal;
  }

  /** Something was heard. */
  broken(): void {
    clearTimeout(this.timer);
    this.timer = this.wait();
  }

  end(): void {
    clearTimeout(this.timer);
  }

  private wait(): ReturnType<typeof setTimeout> {
    return setTimeout(() => this.controller.abort(new Error('no answer')), this.ms);
  }
}

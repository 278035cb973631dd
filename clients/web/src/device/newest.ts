import { canonicalOf } from './canonical';
import { entryAt, firstFrom, idAt, spanOf, type Chunk, type ChunkKey } from './chunk';
import type { Database } from './database';
import { valueOf } from './digits';
import type { Entry, Newest } from './view';

/** The chunks of each series of a site that reach beyond a moment, oldest first. */
export async function seriesFrom(db: Database, siteId: string, from: number): Promise<ChunkKey[][]> {
  const scope = 'site:' + siteId;
  const keys = await db.getAllKeys('readings', IDBKeyRange.bound([scope, spanOf(from)], [scope, Infinity, []]));
  const series = new Map<string, ChunkKey[]>();
  for (const key of keys) {
    const name = key[2] + '\n' + key[3];
    const known = series.get(name);
    if (known) known.push(key);
    else series.set(name, [key]);
  }
  return [...series.values()];
}

/**
 * Adds the newest row of each series to the newest found elsewhere. Only the
 * last chunk of a series is read, and those before it while all of its rows
 * were corrected: years of hourly values cost no more than a month of them.
 */
export async function newestRows(db: Database, series: ChunkKey[][], from: number, replaced: ReadonlySet<string>, ownInstall: string, found: NewestOf): Promise<void> {
  const { store } = db.transaction('readings');
  await Promise.all(series.map(async (chunks) => {
    // Spans follow each other, so the first row found from the end is the newest.
    for (const key of chunks.reverse()) {
      const chunk = await store.get(key); // a copy that was emptied meanwhile has none
      const row = chunk ? lastRow(chunk, from, replaced) : -1;
      if (!chunk || row < 0) continue;
      found.add(entryAt(chunk, row, ownInstall));
      return;
    }
  }));
}

/** The newest row from a moment on that nothing stands in place of, between equal times the one with the greatest id; -1 where there is none. */
function lastRow(chunk: Chunk, from: number, replaced: ReadonlySet<string>): number {
  let last = -1;
  for (let i = chunk.offsets.length - 1; i >= firstFrom(chunk, from); i--) {
    if (last >= 0 && chunk.offsets[i] !== chunk.offsets[last]) break;
    if (!replaced.has(idAt(chunk, i)) && (last < 0 || idAt(chunk, i) > idAt(chunk, last))) last = i;
  }
  return last;
}

/** Keeps the newest reading of every quantity at every place. */
export class NewestOf {
  private readonly entries = new Map<string, Entry<'reading'>>();

  add(entry: Entry<'reading'>): void {
    const name = entry.body.placeId + '\n' + entry.body.quantity;
    const before = this.entries.get(name);
    if (!before || entry.at > before.at || (entry.at === before.at && entry.id > before.id)) this.entries.set(name, entry);
  }

  all(): Newest[] {
    return [...this.entries.values()].map((entry) => {
      const { placeId, quantity, unit, basis } = entry.body;
      return { placeId, quantity, entry, value: canonicalOf(quantity, unit, basis)(valueOf(entry.body)) };
    });
  }
}

// A general-purpose replicating store in a page, for comparison: it copies a
// database of this page's server, in batches larger than its own choice of 100,
// which is slower.
import PouchDB from 'pouchdb-browser';

/** Copies all readings; how long it took, ms, and how many there are. */
export async function copy() {
  const here = new PouchDB('readings');
  const began = performance.now();
  await here.replicate.from(new PouchDB(`${location.origin}/readings`), { batch_size: 1000, batches_limit: 10 });
  const took = performance.now() - began;
  return { took, count: (await here.info()).doc_count };
}

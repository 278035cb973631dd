// Readings of a file, one a line as JSON, go through a replicating document
// store: noted on one device, replicated to a server in a process of its own,
// and from there to a new device. Prints what it took, one figure a line.
import { fork } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

import { remote, storeIn } from './store.js';

const readings = readFileSync(process.argv[2], 'utf8').trim().split('\n').map((line) => JSON.parse(line));
const root = mkdtempSync(join(tmpdir(), 'freshet-peers-'));
const folder = (name) => {
  mkdirSync(join(root, name));
  return join(root, name);
};
// In batches larger than its own choice of 100, which is slower.
const batches = { batch_size: 1000, batches_limit: 10 };

const child = fork(new URL('./server.js', import.meta.url), [folder('server')]);
const answer = () => new Promise((heard) => child.once('message', heard));
const { port } = await answer();
const onTheLines = async () => {
  const told = answer();
  child.send('bytes');
  return told;
};
const server = remote(`http://127.0.0.1:${port}/readings`);

const first = new (storeIn(folder('first')))('readings');
for (let i = 0; i < readings.length; i += 1000) await first.bulkDocs(readings.slice(i, i + 1000));

/** Runs a replication: readings a second, and bytes a reading on the wire, both ways. */
async function measured(name, replicate) {
  const before = await onTheLines();
  const began = performance.now();
  await replicate();
  const seconds = (performance.now() - began) / 1000;
  const after = await onTheLines();
  console.log(`${name} ${readings.length / seconds} readings/s`);
  console.log(`${name} ${(after.in + after.out - before.in - before.out) / readings.length} B/reading`);
}

const second = new (storeIn(folder('second')))('readings');
await measured('push', () => first.replicate.to(server, batches));
await measured('pull', () => second.replicate.from(server, batches));
const { doc_count: count } = await second.info();
if (count !== readings.length) throw new Error(`${count} of ${readings.length} readings arrived`);
await Promise.all([first.close(), second.close()]);
const size = (path) => readdirSync(path, { recursive: true }).reduce((sum, name) => sum + statSync(join(path, name)).size, 0);
console.log(`device ${size(join(root, 'second')) / readings.length} B/reading`);
child.disconnect();
child.kill();
rmSync(root, { recursive: true, force: true });

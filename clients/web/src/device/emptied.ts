// A member who left takes along what is theirs; their devices keep nothing.
import type { Database } from './database';
import { newInstall, type Install } from './ids';

/**
 * Takes everything off the device, its key, its token and what waits too. It is
 * then as one that was never used. The bytes of install are replaced where they stand.
 */
export async function empty(db: Database, install: Install): Promise<void> {
  const fresh = newInstall();
  const tx = db.transaction([...db.objectStoreNames], 'readwrite', { durability: 'strict' });
  await Promise.all([...[...db.objectStoreNames].map((name) => tx.objectStore(name).clear()), tx.objectStore('facts').put(fresh, 'install'), tx.done]);
  install.set(fresh);
}

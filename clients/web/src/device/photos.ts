import { deleteDB, openDB, type DBSchema, type IDBPDatabase } from 'idb';

import { hexOf } from './ids';

interface Shape extends DBSchema {
  photos: { key: string; value: Blob };
}

/**
 * Pictures as they were taken, by the SHA-256 that their events name. The
 * contract carries no pictures yet, so that they stay on the phone they were
 * taken with. They have a database of their own: it is opened when the first is
 * taken or looked at, and no entry waits for it.
 */
export class Photos {
  private opened: Promise<IDBPDatabase<Shape>> | undefined;
  private readonly name: string;

  /** Pictures of the notebook of a name. */
  constructor(notebook: string) {
    this.name = `freshet-${notebook}-photos`;
  }

  private open(): Promise<IDBPDatabase<Shape>> {
    return (this.opened ??= openDB<Shape>(this.name, 1, { upgrade: (db) => void db.createObjectStore('photos') }));
  }

  /** Keeps a picture, synced to the disk. */
  async keep(sha256: Uint8Array, picture: Blob): Promise<void> {
    const tx = (await this.open()).transaction('photos', 'readwrite', { durability: 'strict' });
    await Promise.all([tx.store.put(picture, hexOf(sha256)), tx.done]);
  }

  /** A picture; undefined where it was taken with another phone. */
  async find(sha256: Uint8Array): Promise<Blob | undefined> {
    return (await this.open()).get('photos', hexOf(sha256));
  }

  async forget(): Promise<void> {
    await this.close();
    await deleteDB(this.name);
  }

  async close(): Promise<void> {
    const { opened } = this;
    this.opened = undefined;
    (await opened)?.close();
  }
}

import { deleteDB, openDB, type DBSchema, type IDBPDatabase } from 'idb';

import { hexOf } from './ids';

interface Shape extends DBSchema {
  /** Files as they were taken or fetched. */
  photos: { key: string; value: Blob };
  thumbnails: { key: string; value: Blob };
  /** Files that the co-op has whole, by their hash; or why it did not take one. */
  told: { key: string; value: Told };
  /** The server's, when it was last asked. */
  epoch: { key: string; value: number };
  /** Chunks of files that are being fetched, by hash and number. */
  parts: { key: [string, number]; value: Uint8Array };
}

interface Told {
  arrived: boolean;
  /** A name of ErrorReason without its prefix; empty where none was given. */
  reason: string;
}

/** How the files of photos stand that are on this phone. */
export interface PhotosStand {
  /** Those that are only here. */
  waiting: number;
  /** Names of ErrorReason without their prefix: why some of them were not taken. */
  reasons: string[];
}

/**
 * Files of photos, by the SHA-256 that their events name. They have a database
 * of their own: it is opened once what waits was sent, or when one is taken or
 * looked at, and no entry waits for it. Nothing is deleted from it.
 */
export class Photos {
  private opened: Promise<IDBPDatabase<Shape>> | undefined;
  private readonly name: string;

  /** Pictures of the notebook of a name. */
  constructor(notebook: string) {
    this.name = `freshet-${notebook}-photos`;
  }

  private open(): Promise<IDBPDatabase<Shape>> {
    return (this.opened ??= openDB<Shape>(this.name, 2, {
      upgrade: (db, before) => {
        if (before < 1) db.createObjectStore('photos');
        db.createObjectStore('thumbnails');
        db.createObjectStore('told');
        db.createObjectStore('parts');
        db.createObjectStore('epoch');
      },
    }));
  }

  /** Keeps a picture, synced to the disk. */
  async keep(sha256: Uint8Array, picture: Blob, fetched?: 'fetched'): Promise<void> {
    const tx = (await this.open()).transaction(['photos', 'told'], 'readwrite', { durability: 'strict' });
    const key = hexOf(sha256);
    await Promise.all([tx.objectStore('photos').put(picture, key), fetched && tx.objectStore('told').put({ arrived: true, reason: '' }, key), tx.done]);
  }

  /** A picture; undefined where it is not on this phone. */
  async find(sha256: Uint8Array): Promise<Blob | undefined> {
    return (await this.open()).get('photos', hexOf(sha256));
  }

  /** Keeps a small picture. */
  async keepThumbnail(sha256: Uint8Array, picture: Blob): Promise<void> {
    await (await this.open()).put('thumbnails', picture, hexOf(sha256));
  }

  async findThumbnail(sha256: Uint8Array): Promise<Blob | undefined> {
    return (await this.open()).get('thumbnails', hexOf(sha256));
  }

  /** The chunks of a file that have come so far, in their order. */
  async parts(sha256: Uint8Array): Promise<Uint8Array[]> {
    return (await this.open()).getAll('parts', partsOf(sha256));
  }

  async keepPart(sha256: Uint8Array, number: number, data: Uint8Array): Promise<void> {
    await (await this.open()).put('parts', data, [hexOf(sha256), number]);
  }

  async dropParts(sha256: Uint8Array): Promise<void> {
    await (await this.open()).delete('parts', partsOf(sha256));
  }

  /** Hashes, in hex, of the files that the co-op lacks for all this phone knows. */
  async waiting(): Promise<string[]> {
    const tx = (await this.open()).transaction(['photos', 'told']);
    const [all, told, keys] = await Promise.all([tx.objectStore('photos').getAllKeys(), tx.objectStore('told').getAll(), tx.objectStore('told').getAllKeys()]);
    const arrived = new Set(keys.filter((_, i) => told[i]!.arrived));
    return all.filter((key) => !arrived.has(key));
  }

  /** Keeps what the co-op said of a file. */
  async tell(key: string, told: Told): Promise<void> {
    await (await this.open()).put('told', told, key);
  }

  /** Where the server's epoch is another than before, it was restored and may have lost some: all files are asked about anew. */
  async at(epoch: number): Promise<void> {
    const tx = (await this.open()).transaction(['told', 'epoch'], 'readwrite');
    const before = await tx.objectStore('epoch').get('epoch');
    if (before !== epoch) await Promise.all([tx.objectStore('told').clear(), tx.objectStore('epoch').put(epoch, 'epoch')]);
    await tx.done;
  }

  /** How those files stand that entries name, by their hashes in hex. */
  async stand(named: ReadonlyMap<string, unknown>): Promise<PhotosStand> {
    const waiting = (await this.waiting()).filter((key) => named.has(key));
    const db = await this.open();
    const told = await Promise.all(waiting.map((key) => db.get('told', key)));
    return { waiting: waiting.length, reasons: [...new Set(told.flatMap((t) => t?.reason || []))] };
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

const partsOf = (sha256: Uint8Array) => IDBKeyRange.bound([hexOf(sha256), 0], [hexOf(sha256), Infinity]);

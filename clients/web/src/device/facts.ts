import type { Database } from './database';
import type { Key } from './key';
import type { Slow } from './misdated';

/** What a device keeps about itself. */
export interface Facts {
  install: Uint8Array;
  /** Number of the next operation. */
  next: number;
  /** Every operation up to it has a lasting outcome. */
  through: number;
  /** Operations up to it the server said to have; its answer to them may have been lost. */
  arrived: number;
  /** Operations up to it may have been sent. */
  attempted: number;
  /** Marks of the latest pushes that were made here, with the last operation of each. */
  pushes: { last: number; mark: Uint8Array }[];
  /** Mark of the install's last push, as the server told or took it; empty before the first. */
  mark: Uint8Array;
  /** Operations up to it are in the cooperative's backup. */
  backedUp: number;
  /** Epoch of the server, at the last contact. */
  epoch: number;
  /** The newest schema the server knows, as it said at the last contact. */
  serverSchema: number;
  /** Origin of the cooperative's server, "https://coop.example". */
  address: string;
  token: string;
  /** The device's own key. */
  key: Key | undefined;
  /** The cooperative has the public half of the key. */
  keyed: boolean;
  /** The token without an end of a device that joined before devices had keys. */
  formerToken: string;
  cooperativeId: string;
  memberId: string;
  deviceId: string;
  lastContactMs: number;
  /** Server's clock less this device's, at the last contact. */
  serverAheadMs: number;
  /** What a slow clock dated, until the person has said what of it is right. */
  slow: Slow[];
  /** Why the last contact failed; empty words when it did not. */
  trouble: Trouble | undefined;
}

/** Why something did not work, in words a person can follow. */
export interface Trouble {
  words: string;
  /** A name of ErrorReason without its prefix, or one of the device's own; empty where none was given. */
  reason: string;
  /** The field it is about; empty where none is. */
  field: string;
  hint: string;
  /** The server was not reached, or could not answer now: it is tried again. */
  noSignal: boolean;
}

/** What stands before a device was ever used. */
const first: Omit<Facts, 'install'> = {
  next: 1, through: 0, arrived: 0, attempted: 0, pushes: [], mark: new Uint8Array(), backedUp: 0, epoch: 0, serverSchema: 0, address: '', token: '', key: undefined, keyed: false, formerToken: '', cooperativeId: '', memberId: '', deviceId: '',
  lastContactMs: 0, serverAheadMs: 0, slow: [], trouble: undefined,
};

interface FactStore {
  get(name: string): Promise<unknown>;
}

/** Reads one fact, from a store of facts within a transaction. */
export async function factFrom<N extends keyof typeof first>(store: FactStore, name: N): Promise<Facts[N]> {
  return ((await store.get(name)) as Facts[N] | undefined) ?? (first[name] as Facts[N]);
}

/** Reads one fact. */
export async function fact<N extends keyof typeof first>(db: Database, name: N): Promise<Facts[N]> {
  return factFrom({ get: (key) => db.get('facts', key) }, name);
}

/** Keeps facts, together, synced to the disk. */
export async function keepFacts(db: Database, facts: Partial<Facts>): Promise<void> {
  const tx = db.transaction('facts', 'readwrite', { durability: 'strict' });
  await Promise.all([...Object.entries(facts).map(([name, value]) => tx.store.put(value, name)), tx.done]);
}

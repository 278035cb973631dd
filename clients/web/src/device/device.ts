// One grower's device in a browser: everything a person can note with no
// network, kept until the cooperative has it, and a copy of the cooperative's
// records to read from. The twin of clients/device; what a client promises is
// written in clients/README.md.

import { OpenDevice } from './open';
import type { Photo } from '../gen/freshet/v1/photo_pb';
import type { Calls } from './calls';
import type { Clock } from './clock';
import type { Draft } from './draft';
import type { Trouble } from './facts';
import type { Invitation } from './join';
import type { Stop } from './live';
import { own } from './names';
import type { PhotosStand } from './photos';
import type { StorageState } from './storage';
import type { Entry, Left, View } from './view';

export type { Calls } from './calls';
export type { Draft, Place } from './draft';
export type { Trouble } from './facts';
export type { Invitation } from './join';
export type { Stop } from './live';
export type { PhotosStand } from './photos';
export type { Entry, Left, Newest, Recorded, Series, View, Want } from './view';
export { digitsOf, textOf, valueOf } from './digits';
export { TroubleError } from './trouble';
export { undoMs } from './undo';

/** How a device is opened. */
export interface Options {
  /** Which of this browser's notebooks: "own" where it is left out, "invented" to look around without any server. */
  name?: string;
  /** Where it reads its clocks; this machine's where it is left out. */
  clock?: Clock;
}

/** Entries that were just noted. */
export interface Noted {
  /** Numbers of the first and the last operation. */
  first: number;
  last: number;
}

/** How a device stands towards its cooperative. */
export interface Status {
  /** Empty before joining. */
  cooperativeId: string;
  memberId: string;
  /** Origin of the server; empty before joining. */
  address: string;
  /** Entries only on this device. */
  waiting: number;
  /** When the oldest of them was noted, ms since 1970 UTC. */
  oldest?: number;
  /** When the cooperative was last heard from. */
  lastContact?: number;
  /** Server's clock less this device's, ms, at the last contact. */
  serverAhead: number;
  /** A contact is going on. */
  busy: boolean;
  /** Why the last contact failed; undefined when it did not. */
  trouble?: Trouble;
  /** Entries refused or held that the person has not read about. */
  refused: number;
  held: number;
  /** Entries that a slow clock dated, of which the person has not said what is right. */
  misdated: number;
  /** What of the browser's storage is used; undefined where it does not tell. */
  storage?: StorageState;
}

/** One grower's device. */
export interface Device {
  /** Which of this browser's notebooks it is. */
  readonly name: string;
  /** What time it is: use this, not Date.now, since invented records have a day of their own. */
  now(): number;
  /** Calls heed with what a query gives now, and again after every change that could alter it. */
  live<T>(query: (view: View) => Promise<T>, heed: (value: T) => void, failed?: (error: unknown) => void): Stop;
  /** Runs a query once. */
  once<T>(query: (view: View) => Promise<T>): Promise<T>;
  /**
   * Commits what fill drafts. When it resolves, the entries outlive a crash; an
   * error enters nothing. Where there is no room left it throws a TroubleError
   * with reason STORAGE_FULL.
   */
  enter(fill: (draft: Draft) => void): Promise<Noted>;
  /** Drafts something that is entered nowhere: what was done once goes quicker the next time. */
  rehearse(fill: (draft: Draft) => void): void;
  /** Keeps a picture on this phone, before the event that names it by its hash is entered. Throws as enter does. */
  keepPhoto(sha256: Uint8Array, picture: Blob): Promise<void>;
  /** A picture, from this phone or else the cooperative. Throws a TroubleError where it cannot be had now. */
  photo(siteId: string, photo: Photo): Promise<Blob>;
  /** The same picture small, where it is not on this phone whole. */
  thumbnail(siteId: string, photo: Photo): Promise<{ picture: Blob; whole: boolean }>;
  /** How the pictures stand that are on this phone. They are sent after the entries. */
  photosStand(): Promise<PhotosStand>;
  /** Takes back what was just noted: as if it had not been made where it was not sent yet, else by corrections. */
  undo(noted: Noted): Promise<void>;
  /** Calls heed with how the device stands now and after every change of it. */
  liveStatus(heed: (status: Status) => void): Stop;
  /** Entries that were refused or are held, oldest first. */
  left(): Promise<Left[]>;
  /** Notes that the person has read why an entry was not stored. */
  seen(number: number): Promise<void>;
  /** Enters an entry that was refused once more, later by so many ms, with those that belong to it; they count as read. */
  again(number: number, laterMs: number): Promise<Noted>;
  /** Entries that a slow clock dated before the cooperative was heard, oldest first, each with when it was by the server's clock; those that were corrected since are left out. */
  misdated(): Promise<{ entry: Entry; rightMs: number }[]>;
  /** Puts them on the days that misdated tells, by corrections; undefined where their days are to stay, and nobody is asked again. */
  dateRight(as?: readonly { entry: Entry; rightMs: number }[]): Promise<Noted | undefined>;
  /** Joins a cooperative. Throws a TroubleError. */
  join(invitation: Invitation): Promise<void>;
  /** Makes contact now, as far as there is a network. Resolves when it has ended, also in trouble: see liveStatus. */
  contact(): Promise<void>;
  /** Asks the cooperative's server. Throws a TroubleError, with reason NOT_JOINED before joining. */
  ask<T>(call: (calls: Calls) => Promise<T>): Promise<T>;
  /** What waits, as bytes for a file: an encoded PushRequest. */
  outboxFile(): Promise<Uint8Array>;
  /** Forgets everything. Refused with reason ENTRIES_WAIT while entries are only here, unless they are to be lost. */
  leave(losing?: 'entries'): Promise<void>;
  /** Lets go of what the device holds open. */
  close(): void;
}

/** Opens a device and makes it where there is none. It needs no network. */
export async function openDevice(options: Options = {}): Promise<Device> {
  return OpenDevice.open(options.name ?? own, options.clock);
}

import { Code, ConnectError } from '@connectrpc/connect';

import type { PhotoFile } from '../gen/freshet/v1/photo_service_pb';
import { callMs, type Calls } from './calls';
import { bytesOf, hexOf } from './ids';
import type { Photos } from './photos';
import { TroubleError, understand } from './trouble';

/** Bytes of each chunk but the last, as the contract says. */
export const chunkBytes = 131_072;
// As the contract says: files asked about at once, and bounds of a thumbnail.
const maxAsked = 100;
const maxThumbnailBytes = 49_152;
/** The longer side of a thumbnail, px: as wide as a phone's page. */
const thumbnailSide = 320;

interface Owed {
  key: string;
  siteId: string;
  picture: Blob;
  has: PhotoFile;
}

/** What sending needs to know of the notebook. */
export interface Notebook {
  /** The site of each photo that an entry names, by the hash of its file, in hex. */
  sites(): Promise<Map<string, string>>;
  /** Some entries wait: they go first. */
  entriesWait(): Promise<boolean>;
}

/**
 * Sends the files of photos, once no entry waits: first what is small of all,
 * then each whole from where it was cut. It ends where an entry is noted
 * meanwhile, which goes first; the next round goes on. A file that is refused
 * holds up nothing. Tells how many have arrived.
 */
export async function sendPhotos(photos: Photos, calls: Calls, notebook: Notebook): Promise<number> {
  const waiting = await photos.waiting();
  if (waiting.length === 0) return 0;
  const found = await lacking(photos, calls, waiting, await notebook.sites()).catch((error: unknown) => {
    if (ConnectError.from(error).code === Code.Unimplemented) return undefined; // a server of an earlier release
    throw error;
  });
  if (!found) return 0;
  const { owed, arrived } = found;
  let sent = arrived;
  for (const send of [small, whole]) {
    for (const file of owed) {
      if (await notebook.entriesWait()) return sent;
      try {
        if (await send(file, photos, calls, notebook)) sent++;
      } catch (error) {
        const trouble = understand(error);
        if (trouble.noSignal || trouble.reason === '') throw trouble;
        await photos.tell(file.key, { arrived: false, reason: trouble.reason });
      }
    }
  }
  return sent;
}

/** Asks which of the files the co-op lacks. Those that no entry there names, since it was voided or not sent, are left. */
async function lacking(photos: Photos, calls: Calls, waiting: string[], sites: Map<string, string>): Promise<{ owed: Owed[]; arrived: number }> {
  const bySite = new Map<string, string[]>();
  for (const key of waiting) {
    const site = sites.get(key);
    if (site !== undefined) bySite.set(site, [...(bySite.get(site) ?? []), key]);
  }
  const owed: Owed[] = [];
  let arrived = 0;
  for (const [siteId, keys] of bySite) {
    for (let i = 0; i < keys.length; i += maxAsked) {
      const sha256 = keys.slice(i, i + maxAsked).map(bytesOf);
      const { files } = await calls.photo.findPhotoFiles({ siteId, sha256 }, { timeoutMs: callMs });
      for (const has of files) {
        const key = hexOf(has.sha256);
        if (has.whole) {
          await photos.tell(key, { arrived: true, reason: '' });
          arrived++;
          continue;
        }
        const picture = await photos.find(has.sha256);
        if (picture) owed.push({ key, siteId, picture, has });
      }
    }
  }
  return { owed, arrived };
}

async function small({ key, siteId, picture, has }: Owed, photos: Photos, calls: Calls): Promise<false> {
  if (has.hasThumbnail) return false;
  const drawn = await thumbnailOf(picture).catch(() => undefined);
  if (!drawn) return false; // what cannot be drawn here is sent whole all the same
  await photos.keepThumbnail(bytesOf(key), drawn);
  await calls.photo.putPhotoThumbnail({ siteId, sha256: has.sha256, jpeg: new Uint8Array(await drawn.arrayBuffer()) }, { timeoutMs: callMs });
  return false;
}

/** Draws a picture small. */
async function thumbnailOf(picture: Blob): Promise<Blob> {
  const image = await createImageBitmap(picture);
  const scale = Math.min(1, thumbnailSide / Math.max(image.width, image.height));
  const canvas = new OffscreenCanvas(Math.max(1, Math.round(image.width * scale)), Math.max(1, Math.round(image.height * scale)));
  canvas.getContext('2d')!.drawImage(image, 0, 0, canvas.width, canvas.height);
  image.close();
  for (let quality = 0.8; ; quality -= 0.2) {
    const drawn = await canvas.convertToBlob({ type: 'image/jpeg', quality });
    if (drawn.size <= maxThumbnailBytes || quality < 0.3) return drawn;
  }
}

async function whole(file: Owed, photos: Photos, calls: Calls, notebook: Notebook): Promise<boolean> {
  const { key, siteId, picture, has } = file;
  for (let next = has.nextChunk; ; ) {
    if (await notebook.entriesWait()) return false;
    const data = new Uint8Array(await picture.slice(next * chunkBytes, (next + 1) * chunkBytes).arrayBuffer());
    const answer = await calls.photo.putPhotoChunk({ siteId, sha256: has.sha256, number: next, data, dataSha256: await sha256Of(data) }, { timeoutMs: callMs });
    if (answer.file?.whole) {
      await photos.tell(key, { arrived: true, reason: '' });
      return true;
    }
    next = answer.file?.nextChunk ?? next + 1;
  }
}

/** Fetches a small picture. */
export async function fetchThumbnail(photos: Photos, calls: Calls, siteId: string, sha256: Uint8Array): Promise<Blob> {
  const kept = await photos.findThumbnail(sha256);
  if (kept) return kept;
  const { jpeg } = await calls.photo.getPhotoThumbnail({ siteId, sha256 }, { timeoutMs: callMs });
  const picture = new Blob([jpeg as BlobPart], { type: 'image/jpeg' });
  await photos.keepThumbnail(sha256, picture);
  return picture;
}

/** Fetches a picture whole, and proves it the one that its event names. */
export async function fetchPhoto(photos: Photos, calls: Calls, siteId: string, photo: { sha256: Uint8Array; sizeBytes: bigint; mediaType: string }): Promise<Blob> {
  const parts: Uint8Array[] = await photos.parts(photo.sha256);
  for (let number = parts.length; number * chunkBytes < Number(photo.sizeBytes); number++) {
    const { data, dataSha256 } = await calls.photo.getPhotoChunk({ siteId, sha256: photo.sha256, number }, { timeoutMs: callMs });
    if (hexOf(await sha256Of(data)) !== hexOf(dataSha256)) throw new TroubleError({ words: 'a piece of the picture changed on its way', reason: 'PHOTO_DIFFERS', noSignal: true });
    await photos.keepPart(photo.sha256, number, data);
    parts.push(data);
  }
  const picture = new Blob(parts as BlobPart[], { type: photo.mediaType });
  const is = hexOf(await sha256Of(new Uint8Array(await picture.arrayBuffer())));
  await photos.dropParts(photo.sha256);
  if (is !== hexOf(photo.sha256)) throw new TroubleError({ words: 'the picture that came is not the one that was noted', reason: 'PHOTO_DIFFERS', noSignal: false });
  await photos.keep(photo.sha256, picture, 'fetched');
  return picture;
}

async function sha256Of(data: Uint8Array): Promise<Uint8Array> {
  return new Uint8Array(await crypto.subtle.digest('SHA-256', data as BufferSource));
}

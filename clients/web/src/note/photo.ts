// A picture from the camera, small enough to keep and to send.

export interface Picture {
  /** What the event says of it. */
  fields: { sha256: Uint8Array; sizeBytes: bigint; mediaType: string };
  picture: Blob;
  /** For looking at it now. */
  url: string;
}

/** The longer side, px, after making it smaller. */
const longest = 1600;

/**
 * Reads a file of an image, and draws it anew: what the camera wrote into it
 * beside the picture, such as where it was taken, stays behind. It throws where
 * the browser cannot read it.
 */
export async function photoFrom(file: File): Promise<Picture> {
  const image = await createImageBitmap(file);
  const scale = Math.min(1, longest / Math.max(image.width, image.height));
  const canvas = new OffscreenCanvas(Math.round(image.width * scale), Math.round(image.height * scale));
  canvas.getContext('2d')!.drawImage(image, 0, 0, canvas.width, canvas.height);
  const blob = await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.82 });
  const bytes = new Uint8Array(await blob.arrayBuffer());
  const sha256 = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return { fields: { sha256, sizeBytes: BigInt(bytes.length), mediaType: 'image/jpeg' }, picture: blob, url: URL.createObjectURL(blob) };
}

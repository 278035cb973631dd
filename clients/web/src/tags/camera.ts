// Looks through the camera, or at a picture, for a code.
import type decodeQR from 'qr/decode.js';

/** What finds a code in a picture, fetched when the camera is opened. */
const finder = async (): Promise<typeof decodeQR> => (await import('qr/decode.js')).default;

/** The longer side that is looked at, px: more costs time and finds no more. */
const longest = 640;

type Source = HTMLVideoElement | ImageBitmap;

function look(source: Source, canvas: OffscreenCanvas, find: typeof decodeQR): string | undefined {
  const [w, h] = source instanceof HTMLVideoElement ? [source.videoWidth, source.videoHeight] : [source.width, source.height];
  if (!w || !h) return undefined;
  const scale = Math.min(1, longest / Math.max(w, h));
  canvas.width = Math.round(w * scale);
  canvas.height = Math.round(h * scale);
  const c = canvas.getContext('2d', { willReadFrequently: true })!;
  c.drawImage(source, 0, 0, canvas.width, canvas.height);
  try {
    return find(c.getImageData(0, 0, canvas.width, canvas.height));
  } catch {
    return undefined; // no code in sight
  }
}

/** Shows the camera in a video and calls found with each text seen, until it is stopped. Rejects where there is no camera, or it is refused. */
export async function watch(video: HTMLVideoElement, found: (text: string) => void): Promise<() => void> {
  const find = await finder();
  const stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: 'environment', width: { ideal: 1280 } } });
  video.srcObject = stream;
  await video.play();
  const canvas = new OffscreenCanvas(1, 1);
  const beat = setInterval(() => {
    const text = look(video, canvas, find);
    if (text) found(text);
  }, 250);
  return () => {
    clearInterval(beat);
    stream.getTracks().forEach((t) => t.stop());
  };
}

/** The text of a code in a picture; undefined where there is none. */
export async function inPicture(file: File): Promise<string | undefined> {
  return look(await createImageBitmap(file), new OffscreenCanvas(1, 1), await finder());
}

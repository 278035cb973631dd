// A picture as a camera writes it: with the place it was taken at.
import type { Page } from 'playwright-core';

/** A JPEG of 64 x 48 whose Exif segment holds a place. */
export async function withPlace(page: Page, place: string): Promise<Buffer> {
  const drawn = await page.evaluate(() => {
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [64, 48];
    canvas.getContext('2d')!.fillRect(8, 8, 30, 30);
    return canvas.toDataURL('image/jpeg').split(',')[1]!;
  });
  const jpeg = Buffer.from(drawn, 'base64');
  // Segment APP1 behind the first two bytes: marker, length, "Exif", then what a reader would look for.
  const words = Buffer.from(`Exif\0\0MM\0*\0\0\0\x08\0\0\0\0\0\0${place}`, 'latin1');
  const head = Buffer.from([0xff, 0xe1, 0, words.length + 2]);
  return Buffer.concat([jpeg.subarray(0, 2), head, words, jpeg.subarray(2)]);
}

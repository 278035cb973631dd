// How ids follow from install and number; the twin of api/wire.

/** Names one installation: 8 bytes, of which 60 bits are random and the high half of the seventh is 8. */
export type Install = Uint8Array;

/** Makes an install at random. */
export function newInstall(): Install {
  const install = crypto.getRandomValues(new Uint8Array(8));
  install[6] = (install[6]! & 0x0f) | 0x80;
  return install;
}

/** Tells whether bytes that came over the wire are an install. */
export function isInstall(b: Uint8Array): boolean {
  return b.length === 8 && b[6]! >> 4 === 8;
}

/** The id of what operation number of an install made: a UUID of version 8. Numbers here stay below 2^53. */
export function idOf(install: Install, number: number): string {
  const head = hexOf(install);
  const tail = (BigInt(number) | (1n << 63n)).toString(16);
  return `${head.slice(0, 8)}-${head.slice(8, 12)}-${head.slice(12)}-${tail.slice(0, 4)}-${tail.slice(4)}`;
}

/** Takes an id apart again; undefined where no install made it. */
export function splitId(id: string): { install: string; number: number } | undefined {
  const hex = id.replaceAll('-', '').toLowerCase();
  if (!/^[0-9a-f]{12}8[0-9a-f]{3}[89ab][0-9a-f]{15}$/.test(hex)) return undefined;
  const number = Number(BigInt('0x' + hex.slice(16)) & ((1n << 63n) - 1n));
  return number > 0 && number < 2 ** 53 ? { install: hex.slice(0, 16), number } : undefined;
}

/** Bytes as lower-case hexadecimal digits. */
export function hexOf(bytes: Uint8Array): string {
  let hex = '';
  for (const b of bytes) hex += b.toString(16).padStart(2, '0');
  return hex;
}

/** Hexadecimal digits as bytes. */
export function bytesOf(hex: string): Uint8Array {
  const bytes = new Uint8Array(hex.length / 2);
  for (let i = 0; i < bytes.length; i++) bytes[i] = parseInt(hex.slice(2 * i, 2 * i + 2), 16);
  return bytes;
}

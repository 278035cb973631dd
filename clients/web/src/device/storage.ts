/** What of this browser's storage is used, and whether it may be taken away. */
export interface StorageState {
  /** Bytes. */
  used: number;
  /** Bytes. */
  quota: number;
  /** The browser has promised not to evict it. */
  lasting: boolean;
}

/** Reads how storage stands; undefined where the browser does not tell. */
export async function storageState(): Promise<StorageState | undefined> {
  if (!navigator.storage?.estimate) return undefined;
  const [{ usage = 0, quota = 0 }, lasting] = await Promise.all([navigator.storage.estimate(), navigator.storage.persisted()]);
  return { used: usage, quota, lasting };
}

/** Asks the browser not to evict what is kept. It may ask the person, or refuse. */
export async function askToLast(): Promise<boolean> {
  return (await navigator.storage?.persist?.().catch(() => false)) ?? false;
}

/** Tells whether an error of the database says that there is no room left. */
export function isFull(error: unknown): boolean {
  return error instanceof DOMException && (error.name === 'QuotaExceededError' || error.name === 'UnknownError');
}

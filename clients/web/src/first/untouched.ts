import { databaseOf, own } from '../device/names';

/** Whether nothing was ever opened on this phone, and nothing but the cover is asked for. */
export async function untouched(): Promise<boolean> {
  if (!/^(#\/?)?$/.test(location.hash)) return false;
  try {
    if (localStorage.length > 0) return false;
    const kept = await indexedDB.databases();
    return !kept.some((database) => database.name === databaseOf(own));
  } catch {
    return false; // storage is shut, which is said inside, or the browser tells of no databases
  }
}

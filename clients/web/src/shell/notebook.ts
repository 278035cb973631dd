// Which notebook is open: one's own, or the invented one for looking around.
import { invented, own } from '../device/names';

const key = 'freshet.notebook';

/** The name to open a device by. */
export const notebook = (): string => localStorage.getItem(key) ?? own;

export const lookingAround = (): boolean => notebook() === invented;

/** Turns to the invented notebook, or back to one's own. */
export function lookAround(there: boolean): void {
  localStorage.setItem(key, there ? invented : own);
  location.hash = '';
  location.reload();
}

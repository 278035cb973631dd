import type { Status } from '../device/device';

/** By how many minutes this phone's clock is off the cooperative's; 0 where it is near enough. */
export function clockOff(status: Status | undefined): number {
  const minutes = Math.round((status?.serverAhead ?? 0) / 60_000);
  return Math.abs(minutes) > 5 ? minutes : 0;
}

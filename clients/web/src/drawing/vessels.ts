// The kinds of vessels by their numbers in the contract. The contract itself brings all
// its descriptions with it, and the cover is drawn before they are there.
import type { VesselKind } from '../gen/freshet/v1/vessel_pb';

export const fishTank: VesselKind.FISH_TANK = 1;
export const settler: VesselKind.SETTLER = 2;
export const mediaFilter: VesselKind.MEDIA_FILTER = 3;
export const pumpTank: VesselKind.PUMP_TANK = 4;
export const bed: VesselKind.BED = 5;
export const returnTank: VesselKind.RETURN_TANK = 6;

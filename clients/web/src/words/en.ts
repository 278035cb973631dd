// English. What stands here is what people read; the keys are what code says.
// Other catalogues give every key that this one gives.
import { ahead } from './en/ahead';
import { coop } from './en/coop';
import { crop, species } from './en/living';
import { notes } from './en/notes';
import { offline } from './en/offline';
import { outlook } from './en/outlook';
import { pages } from './en/pages';
import { records } from './en/records';
import { things } from './en/things';
import { trial } from './en/trial';
import { water } from './en/water';
import type { Say } from './say';

export const en = (say: Say) => ({ app: 'Freshet', ...things, ...offline, crop, species, ...notes(say), ...pages(say), ...ahead(say), ...records(), ...coop(say), ...trial(say), ...outlook(say), ...water(say) });

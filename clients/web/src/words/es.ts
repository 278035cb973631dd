// Spanish. Every key that the English has; the compiler and the tests hold it to that.
import { ahead } from './es/ahead';
import { coop } from './es/coop';
import { crop, species } from './es/living';
import { notes } from './es/notes';
import { offline } from './es/offline';
import { outlook } from './es/outlook';
import { pages } from './es/pages';
import { records } from './es/records';
import { things } from './es/things';
import { trial } from './es/trial';
import { water } from './es/water';
import type { Say } from './say';
import type { Words } from './words';

export const es = (say: Say): Words => ({ app: 'Freshet', ...things, ...offline, crop, species, ...notes(say), ...pages(say), ...ahead(say), ...records(), ...coop(say), ...trial(say), ...outlook(say), ...water(say) });

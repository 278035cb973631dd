// A phone that has the app opens the notebook at once.
import { start } from './start';

const target = document.getElementById('app');
if (target) await start(target);

// A phone on which nothing was ever opened shows the cover, which is little and soon
// there. What keeps and reckons is fetched when somebody turns it over.
import { front } from './first/front';
import { untouched } from './first/untouched';

const target = document.getElementById('app');
if (target) {
  if (await untouched()) await front(target);
  else await (await import('./start')).start(target);
}

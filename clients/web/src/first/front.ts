import { mount, unmount } from 'svelte';

import { registered } from '../offline/update';
import { lightAt } from '../shell/light';
import { cover } from '../words/en/cover';
import Front from './Front.svelte';

/** Shows the cover by itself until somebody turns it over. The app is kept for later meanwhile. */
export async function front(target: HTMLElement): Promise<void> {
  lightAt(Date.now(), '');
  const spanish = navigator.language.startsWith('es');
  document.documentElement.lang = spanish ? 'es' : 'en';
  const words = spanish ? (await import('../words/es/cover')).cover : cover;
  const turn = async (): Promise<void> => {
    const { start } = await import('../start');
    await unmount(shown);
    await start(target);
  };
  const ondrawn = (): void => void registered()?.catch(console.error); // not before: it takes what power the phone has
  const shown = mount(Front, { target, props: { words, turn, ondrawn } });
}

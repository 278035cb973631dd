// Opens the notebook that was open last, and draws it.
import { mount } from 'svelte';

import App from './App.svelte';
import { openDevice } from './device/device';
import { UnitSystem } from './gen/freshet/v1/member_pb';
import { foreseeHusbandry } from './husbandry/load';
import Shut from './offline/Shut.svelte';
import { notebook } from './shell/notebook';
import { Say } from './words/say';
import { wordsFor } from './words/words';

export async function start(target: HTMLElement): Promise<void> {
  try {
    const opening = openDevice({ name: notebook() });
    foreseeHusbandry();
    const device = await opening;
    mount(App, { target, props: { device } });
  } catch (error) {
    console.error(error); // a browser that is set to keep nothing, or a disk that is full
    const words = await wordsFor(navigator.language.startsWith('es') ? 'es' : 'en');
    mount(Shut, { target, props: { t: words(new Say(navigator.language, UnitSystem.METRIC, 'UTC', Date.now)) } });
  }
}

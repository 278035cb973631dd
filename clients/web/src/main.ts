import { mount } from 'svelte';

import App from './App.svelte';
import { openDevice } from './device/device';
import { notebook } from './shell/notebook';

const target = document.getElementById('app');
if (target) {
  const device = await openDevice({ name: notebook() });
  mount(App, { target, props: { device } });
}

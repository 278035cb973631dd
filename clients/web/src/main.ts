import { mount } from 'svelte';

import App from './App.svelte';
import { openDevice } from './device/device';

const target = document.getElementById('app');
if (target) {
  const device = await openDevice();
  mount(App, { target, props: { device } });
}

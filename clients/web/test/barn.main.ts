// Opens the app on the invented barn, at its own hour.
import { mount } from 'svelte';

import App from '../src/App.svelte';
import { since } from '../src/device/clock';
import { openDevice } from '../src/device/device';
import { fillBarn, morning } from './barn';

const device = await openDevice({ name: 'barn', clock: since(morning, Date.now()) });
if ((await device.once((view) => view.records('site'))).length === 0) await fillBarn(device);
mount(App, { target: document.getElementById('app')!, props: { device } });
(window as unknown as { ready: boolean }).ready = true;

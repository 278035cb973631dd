// Opens the app on the invented barn, at its own hour.
import { mount } from 'svelte';

import App from '../src/App.svelte';
import { since } from '../src/device/clock';
import { openDevice } from '../src/device/device';
import { fillBarn, morning } from './barn';

const device = await openDevice({ name: 'barn', clock: since(morning, Date.now()) });
if ((await device.once((view) => view.records('site'))).length === 0) await fillBarn(device);
const app = mount(App, { target: document.getElementById('app')!, props: { device } });
const desk = (app as { desk?: { ask: unknown } }).desk;
if (desk) {
  const kept = new Map<string, unknown>();
  desk.ask = (name: string, given: Record<string, string | number>) => {
    const body = JSON.stringify({ name, given: Object.fromEntries(Object.entries(given).map(([k, v]) => [k, String(v)])) });
    if (!kept.has(body)) {
      const x = new XMLHttpRequest();
      x.open('POST', 'http://127.0.0.1:5198/ask', false);
      x.send(body);
      const a = JSON.parse(x.responseText);
      const n = (v: number | null) => (v === null ? NaN : v);
      kept.set(body, a.error ? undefined : { ...a, value: n(a.value), low: n(a.low), high: n(a.high) });
    }
    return kept.get(body);
  };
}
(window as unknown as { ready: boolean }).ready = true;

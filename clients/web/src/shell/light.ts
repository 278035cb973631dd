// Dark only for the night round: when the phone asks for dark and it is night,
// or when the person says so.
import type { Desk } from '../desk.svelte';

/** From this hour of the evening to this one of the morning it is night. */
const night = { from: 20, to: 6 };

/** Sets the light now. */
export function lightAt(desk: Desk): void {
  const dark = matchMedia('(prefers-color-scheme: dark)').matches;
  const hour = new Date(desk.device.now()).getHours();
  const dim = desk.habits.light ? desk.habits.light === 'night' : dark && (hour >= night.from || hour < night.to);
  document.documentElement.dataset.light = dim ? 'night' : 'day';
  document.querySelector('meta[name="theme-color"]')?.setAttribute('content', dim ? '#0a1316' : '#f8faf6');
}

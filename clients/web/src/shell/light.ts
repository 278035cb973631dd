// Dark only for the night round: when the phone asks for dark and it is night,
// or when the person says so.
/** From this hour of the evening to this one of the morning it is night. */
const night = { from: 20, to: 6 };

/** Sets the light, as was chosen or by the hour. */
export function lightAt(now: number, chosen: '' | 'day' | 'night'): void {
  const dark = matchMedia('(prefers-color-scheme: dark)').matches;
  const hour = new Date(now).getHours();
  const dim = chosen ? chosen === 'night' : dark && (hour >= night.from || hour < night.to);
  document.documentElement.dataset.light = dim ? 'night' : 'day';
  document.querySelector('meta[name="theme-color"]')?.setAttribute('content', dim ? '#0a1316' : '#f8faf6');
}

// Which page is open. The address after # says it, so that back and reload do
// what a person expects, with or without a server.

export interface Route {
  /** "stream", "note", "why". */
  page: string;
  /** What follows: a place, a kind. */
  rest: string[];
}

class Path {
  at = $state.raw<Route>(parsed(location.hash));

  constructor() {
    addEventListener('hashchange', () => {
      this.at = parsed(location.hash);
    });
  }
}

function parsed(hash: string): Route {
  const [page = '', ...rest] = hash.replace(/^#\/?/, '').split('/').map(decodeURIComponent);
  return { page: page || 'stream', rest };
}

/** The address of a page. */
export const to = (page: string, ...rest: (string | number)[]): string => '#/' + [page, ...rest.map((r) => encodeURIComponent(r))].join('/');

export const path = new Path();

/** Goes on, in this page's stead, once what it said is drawn; unless somebody turned elsewhere meanwhile. */
export function goOn(address: string): void {
  const from = location.hash;
  requestAnimationFrame(() => setTimeout(() => {
    if (location.hash === from) go(address, true);
  }));
}

/** Goes to a page; with replace, back leads past where one was. */
export function go(address: string, replace = false): void {
  if (replace) location.replace(address);
  else location.hash = address;
}

// Where each vessel lies across the page, when a loop branches and joins again.

/** What runs past, into and out of one vessel. Lanes count from the inline start. */
export interface Reach {
  id: string;
  lane: number;
  /** Lanes that end in it. */
  arriving: number[];
  /** Lanes that begin in it. */
  leaving: number[];
  /** Lanes that run by on their way to another. */
  passing: number[];
  /** Nothing lies further on: its water goes back to where the walk began. */
  returns: boolean;
}

interface Node {
  id: string;
  next: readonly string[];
}

/** Vessels in the order the water meets them, from the first that is given. What nothing leads to comes last. */
export function inOrder<T extends Node>(vessels: readonly T[]): T[] {
  const byId = new Map(vessels.map((v) => [v.id, v]));
  const done: T[] = [];
  const state = new Map<string, 'open' | 'done'>();
  const visit = (v: T): void => {
    if (state.has(v.id)) return;
    state.set(v.id, 'open');
    [...v.next].reverse().forEach((id) => {
      const to = byId.get(id);
      if (to) visit(to);
    });
    state.set(v.id, 'done');
    done.unshift(v);
  };
  [...vessels].reverse().forEach((v) => v !== vessels[0] && !leadsFrom(vessels[0], v, byId) && visit(v));
  if (vessels[0]) visit(vessels[0]);
  return done;
}

function leadsFrom<T extends Node>(from: T | undefined, to: T, byId: Map<string, T>): boolean {
  const seen = new Set<string>();
  const ahead = from ? [from] : [];
  for (let v = ahead.pop(); v; v = ahead.pop()) {
    if (v.id === to.id) return true;
    if (seen.has(v.id)) continue;
    seen.add(v.id);
    v.next.forEach((id) => {
      const n = byId.get(id);
      if (n) ahead.push(n);
    });
  }
  return false;
}

/** Lays vessels, given in the order of the water, into lanes. */
export function reaches(vessels: readonly Node[]): Reach[] {
  const place = new Map(vessels.map((v, i) => [v.id, i]));
  const bound: (string | undefined)[] = [];
  return vessels.map((v, i) => {
    const arriving = bound.flatMap((to, lane) => (to === v.id ? [lane] : []));
    arriving.forEach((lane) => (bound[lane] = undefined));
    const lane = arriving[0] ?? free(bound);
    const onward = v.next.filter((id) => (place.get(id) ?? -1) > i);
    const passing = bound.flatMap((to, l) => (to ? [l] : []));
    const leaving = onward.map((id, n) => {
      const l = n === 0 ? lane : free(bound);
      bound[l] = id;
      return l;
    });
    return { id: v.id, lane, arriving, leaving, passing, returns: onward.length === 0 };
  });
}

function free(bound: readonly (string | undefined)[]): number {
  const at = bound.findIndex((to) => to === undefined);
  return at < 0 ? bound.length : at;
}

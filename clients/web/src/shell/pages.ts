// The pages by the names in their addresses.
import type { Component } from 'svelte';

import Note from '../note/Note.svelte';
import Stream from '../stream/Stream.svelte';
import type { Words } from '../words/words';
import Contents from './Contents.svelte';

export interface Page {
  /** Gives the page; one that is fetched when it is first turned to is kept from then on. Rejects where it cannot be fetched. */
  open: () => Component | Promise<Component>;
  title: (t: Words) => string;
  /** Has its own way out. */
  bare?: boolean;
}

/** A page that a morning's walk does without: it comes when somebody turns to it. */
function later(fetch: () => Promise<{ default: Component }>): () => Component | Promise<Component> {
  let page: Component | undefined;
  return () => page ?? fetch().then((fetched) => (page = fetched.default));
}

export const pages: Partial<Record<string, Page>> = {
  contents: { open: () => Contents, title: (t) => t.shell.contents },
  phone: { open: later(() => import('./Phone.svelte')), title: (t) => t.page.phone },
  ahead: { open: later(() => import('../ahead/Ahead.svelte')), title: (t) => t.page.ahead },
  build: { open: later(() => import('../build/Build.svelte')), title: (t) => t.page.build },
  diary: { open: later(() => import('../diary/Diary.svelte')), title: (t) => t.page.diary },
  place: { open: later(() => import('../place/Place.svelte')), title: (t) => t.place.written },
  scan: { open: later(() => import('../tags/Scan.svelte')), title: (t) => t.tags.scan, bare: true },
  tags: { open: later(() => import('../tags/Tags.svelte')), title: (t) => t.tags.title },
  loop: { open: later(() => import('../papers/LoopSheet.svelte')), title: (t) => t.papers.loop },
  join: { open: later(() => import('../join/Join.svelte')), title: (t) => t.join.title, bare: true },
  left: { open: later(() => import('../left/Left.svelte')), title: (t) => t.outbox.title },
  together: { open: later(() => import('../together/Together.svelte')), title: (t) => t.together.title },
  trial: { open: later(() => import('../trial/Trial.svelte')), title: (t) => t.trial.title },
  budget: { open: later(() => import('../budget/Budget.svelte')), title: (t) => t.budget.title },
  fish: { open: later(() => import('../fish/Fish.svelte')), title: (t) => t.ahead.fish },
  larder: { open: later(() => import('../larder/Larder.svelte')), title: (t) => t.page.larder },
  why: { open: later(() => import('../why/Why.svelte')), title: (t) => t.page.why },
  papers: { open: later(() => import('../papers/Papers.svelte')), title: (t) => t.page.papers },
  note: { open: () => Note, title: (t) => t.shell.note, bare: true },
  stream: { open: () => Stream, title: (t) => t.stream.title },
};

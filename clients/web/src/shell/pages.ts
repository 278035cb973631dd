// The pages by the names in their addresses.
import type { Component } from 'svelte';

import Ahead from '../ahead/Ahead.svelte';
import Build from '../build/Build.svelte';
import Budget from '../budget/Budget.svelte';
import Diary from '../diary/Diary.svelte';
import Fish from '../fish/Fish.svelte';
import Join from '../join/Join.svelte';
import Larder from '../larder/Larder.svelte';
import Left from '../left/Left.svelte';
import Note from '../note/Note.svelte';
import LoopSheet from '../papers/LoopSheet.svelte';
import Papers from '../papers/Papers.svelte';
import Place from '../place/Place.svelte';
import Stream from '../stream/Stream.svelte';
import Scan from '../tags/Scan.svelte';
import Tags from '../tags/Tags.svelte';
import Together from '../together/Together.svelte';
import Why from '../why/Why.svelte';
import type { Words } from '../words/words';
import Contents from './Contents.svelte';
import Phone from './Phone.svelte';

export interface Page {
  Page: Component;
  title: (t: Words) => string;
  /** Has its own way out. */
  bare?: boolean;
}

export const pages: Partial<Record<string, Page>> = {
  contents: { Page: Contents, title: (t) => t.shell.contents },
  phone: { Page: Phone, title: (t) => t.page.phone },
  ahead: { Page: Ahead, title: (t) => t.page.ahead },
  build: { Page: Build, title: (t) => t.page.build },
  diary: { Page: Diary, title: (t) => t.page.diary },
  place: { Page: Place, title: (t) => t.place.written },
  scan: { Page: Scan, title: (t) => t.tags.scan, bare: true },
  tags: { Page: Tags, title: (t) => t.tags.title },
  loop: { Page: LoopSheet, title: (t) => t.papers.loop },
  join: { Page: Join, title: (t) => t.join.title, bare: true },
  left: { Page: Left, title: (t) => t.outbox.title },
  together: { Page: Together, title: (t) => t.together.title },
  budget: { Page: Budget, title: (t) => t.budget.title },
  fish: { Page: Fish, title: (t) => t.ahead.fish },
  larder: { Page: Larder, title: (t) => t.page.larder },
  why: { Page: Why, title: (t) => t.page.why },
  papers: { Page: Papers, title: (t) => t.page.papers },
  note: { Page: Note, title: (t) => t.shell.note, bare: true },
  stream: { Page: Stream, title: (t) => t.stream.title },
};

// The pages by the names in their addresses. The first sight needs only the
// stream; the others are fetched when they are opened, and kept for offline.
import type { Component } from 'svelte';

import Note from '../note/Note.svelte';
import Stream from '../stream/Stream.svelte';
import type { Words } from '../words/words';

export interface Page {
  Page: Component;
  title: (t: Words) => string;
  /** Uses a wide screen. */
  wide?: boolean;
  /** Has its own way out. */
  bare?: boolean;
}

export const pages: Partial<Record<string, Page>> = {
  note: { Page: Note, title: (t) => t.shell.note, bare: true },
  stream: { Page: Stream, title: (t) => t.stream.title },
};

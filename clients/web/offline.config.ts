// What a phone that has the app is served with no network: the service worker is told
// every file of the build and a version that follows from their contents, and the page
// it hands out is made.
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

import type { Plugin } from 'vite';

export function offline(): Plugin {
  return {
    name: 'offline',
    apply: 'build',
    enforce: 'post',
    generateBundle(_, bundle) {
      const worker = bundle['sw.js'];
      if (worker?.type !== 'chunk') throw new Error('the build has no sw.js');
      const hash = createHash('sha256');
      const names = Object.keys(bundle).filter((name) => name !== 'sw.js').sort();
      for (const name of names) {
        const file = bundle[name]!;
        hash.update(name).update(file.type === 'chunk' ? file.code : file.source);
      }
      hash.update(worker.code);
      const files = [...names, 'app.webmanifest', 'icon.svg'].map((name) => '/' + name);
      worker.code = worker.code.replace('__VERSION__', hash.digest('hex').slice(0, 12)).replace(/(["'`])__FILES__\1/, files.map((f) => JSON.stringify(f)).join());
    },
  };
}

const openedPage = join(import.meta.dirname, 'opened.html');

/**
 * The page for phones that have the app: index.html, but that what lies behind the
 * cover is asked for at once and not when somebody turns it over. It is asked for as
 * scripts, not as modules: Chromium keeps scripts that a service worker serves as it
 * has compiled them, and compiles modules anew each time, but those it finds asked for so.
 */
export function opened(): Plugin {
  return {
    name: 'opened',
    apply: 'build',
    enforce: 'pre',
    resolveId: (id) => (id.endsWith('opened.html') ? openedPage : undefined),
    load: (id) => (id === openedPage ? readFileSync(join(import.meta.dirname, 'index.html'), 'utf8').replace('/src/main.ts', '/src/opened.ts') : undefined),
    transformIndexHtml: {
      order: 'post',
      handler(html, { path }) {
        if (path !== '/opened.html') return html;
        const asked = html.replaceAll('rel="modulepreload"', 'rel="preload" as="script"');
        if (asked === html) throw new Error('the page for phones that have the app asks for nothing ahead');
        return asked;
      },
    },
  };
}

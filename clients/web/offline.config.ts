// Puts into the service worker what it keeps: every file of the build, and a
// version that follows from their contents. Beside the page that comes over the
// network, which asks for the cover first, stands one for phones that have the app:
// it asks at once for what lies behind the cover too.
import { createHash } from 'node:crypto';

import type { Plugin, Rolldown } from 'vite';

export function offline(): Plugin {
  return {
    name: 'offline',
    apply: 'build',
    enforce: 'post',
    generateBundle(_, bundle) {
      const worker = bundle['sw.js'];
      if (worker?.type !== 'chunk') throw new Error('the build has no sw.js');
      this.emitFile({ type: 'asset', fileName: 'opened.html', source: opened(bundle) });
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

/** The page with what the notebook opens with asked for in its head. */
function opened(bundle: Rolldown.OutputBundle): string {
  const page = bundle['index.html'];
  const start = Object.values(bundle).find((file) => file.type === 'chunk' && file.facadeModuleId?.endsWith('/src/start.ts'));
  if (page?.type !== 'asset' || start?.type !== 'chunk') throw new Error('the build has no page, or nothing behind its cover');
  const html = String(page.source);
  const chunks = [start.fileName, ...start.imports].map((name) => bundle[name]!);
  const css = chunks.flatMap((chunk) => (chunk.type === 'chunk' ? [...(chunk.viteMetadata?.importedCss ?? [])] : []));
  const links = [
    ...chunks.map((chunk) => `<link rel="modulepreload" crossorigin href="/${chunk.fileName}">`),
    ...css.map((file) => `<link rel="stylesheet" crossorigin href="/${file}">`),
  ].filter((link) => !html.includes(link));
  return html.replace('</head>', `${links.map((link) => `  ${link}\n  `).join('')}</head>`);
}

import { svelte } from '@sveltejs/vite-plugin-svelte';
import { playwright } from '@vitest/browser-playwright';
import { defineConfig } from 'vitest/config';

import { offline, opened } from './offline.config.ts';

// Tests of what needs a browser run in the machine's own Chromium, the others in Node.
const chromium = playwright({
  launchOptions: { executablePath: process.env['FRESHET_CHROMIUM'] ?? '/usr/bin/chromium', args: ['--no-sandbox'] },
});

// No inline script or style: the server forbids them. All files are named by their
// content but the page, its twin for phones that have the app, and the service worker.
export default defineConfig({
  plugins: [svelte(), opened(), offline()],
  optimizeDeps: { entries: ['index.html', 'test/*.html'] }, // the page for phones that have the app is made by the build alone
  build: {
    target: 'es2022',
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rolldownOptions: {
      input: { index: 'index.html', opened: 'opened.html', sw: 'src/offline/sw.worker.ts' },
      output: {
        entryFileNames: ({ name }) => (name === 'sw' ? 'sw.js' : 'assets/[name]-[hash].js'),
        // What several pages use is one file: the first load asks for few. What the cover needs is
        // another, so that it is there before the rest.
        codeSplitting: {
          groups: [
            { name: 'cover', priority: 1, test: /\/(svelte|esm-env|clsx)\/|\/src\/(drawing|first\/(Cover|Front|front)|shell\/(light|notebook|paint)|offline\/update|device\/names|route|words\/en\/cover)/ },
            { name: 'shared', minShareCount: 2, test: /^(?!.*\/qr\/)/ },
          ],
        },
      },
    },
  },
  test: {
    projects: [
      { extends: true, test: { name: 'node', include: ['src/**/*.test.ts'], testTimeout: 120_000, hookTimeout: 120_000 } },
      { extends: true, test: { name: 'pages', include: ['test/**/*.pages.ts'] } },
      // What is served is tested, as it was built and embedded. Nothing fails for being slow: the bounds only end what hangs.
      { extends: true, test: { name: 'whole', include: ['test/**/*.e2e.ts'], testTimeout: 600_000, hookTimeout: 600_000, bail: 1 } },
      { extends: true, test: { name: 'bench', include: ['test/bench/*.bench.ts'], testTimeout: 1_800_000, hookTimeout: 600_000 } },
      {
        extends: true,
        test: {
          name: 'chromium',
          include: ['src/**/*.chromium.ts'],
          testTimeout: 120_000,
          fileParallelism: false, // they share the browser's storage
          browser: { enabled: true, headless: true, provider: chromium, instances: [{ browser: 'chromium' }], screenshotFailures: false },
        },
      },
    ],
  },
});

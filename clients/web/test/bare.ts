// Scripts for pages without an app.
import type { Page } from 'playwright-core';
import { build } from 'vite';

/** Bundles a file as one script, whose exports are in the page by a name. */
async function bundled(file: string, name: string): Promise<string> {
  const built = await build({
    configFile: false, logLevel: 'error', define: { 'process.env.NODE_ENV': '"production"', global: 'globalThis' },
    build: { write: false, minify: false, target: 'es2022', lib: { entry: file, formats: ['iife'], name } },
  });
  const [output] = Array.isArray(built) ? built : [built];
  if (!output || !('output' in output)) throw new Error('nothing was built');
  return output.output[0].code;
}

/** Turns to an empty page of an origin, with what a file exports under a name. */
export async function bare(page: Page, origin: string, file: string, name: string): Promise<void> {
  await page.route('**/bare.html', (route) => route.fulfill({ contentType: 'text/html', body: '<!doctype html><title>Bench</title>' }));
  await page.goto(`${origin}/bare.html`);
  await page.evaluate(await bundled(file, name));
}

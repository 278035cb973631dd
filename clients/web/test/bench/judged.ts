// What Lighthouse says of the first page, as it comes from the server.
import { execFileSync } from 'node:child_process';
import { join } from 'node:path';

import type { Row } from './figures';

const categories = { performance: 'performance', accessibility: 'accessibility', 'best-practices': 'best practices' };

export function judged(origin: string): Row[] {
  const text = execFileSync(process.execPath, [
    join(import.meta.dirname, 'node_modules/lighthouse/cli/index.js'), origin, '--quiet', '--output=json', '--output-path=stdout', '--no-enable-error-reporting',
    `--only-categories=${Object.keys(categories).join()}`, '--chrome-flags=--headless=new --no-sandbox',
  ], { encoding: 'utf8', maxBuffer: 1 << 28, env: { ...process.env, CHROME_PATH: process.env['FRESHET_CHROMIUM'] ?? '/usr/bin/chromium' } });
  const { categories: scores, lighthouseVersion } = JSON.parse(text) as { categories: Record<string, { score: number }>; lighthouseVersion: string };
  return Object.entries(categories).map(([id, name]): Row => [`Lighthouse ${lighthouseVersion}, ${name}`, String(Math.round((scores[id]?.score ?? NaN) * 100)), 'at least 95']);
}

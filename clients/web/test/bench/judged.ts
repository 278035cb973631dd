// What Lighthouse says of the first page, as it comes from the server.
import { execFileSync } from 'node:child_process';
import { join } from 'node:path';

import { median, type Row } from './figures';

const categories = { performance: 'performance', accessibility: 'accessibility', 'best-practices': 'best practices' };

/** How often it looks: its own advice is to go by the middle of several. */
const looks = 5;

export function judged(origin: string): Row[] {
  const all = Array.from({ length: looks }, () => look(origin));
  return Object.entries(categories).map(([id, name]): Row => {
    const scores = all.map((each) => Math.round((each.categories[id]?.score ?? NaN) * 100));
    return [`Lighthouse ${all[0]!.lighthouseVersion}, ${name}, middle of ${looks}`, String(median(scores)), 'at least 95'];
  });
}

interface Look {
  categories: Record<string, { score: number }>;
  lighthouseVersion: string;
}

function look(origin: string): Look {
  const text = execFileSync(process.execPath, [
    join(import.meta.dirname, 'node_modules/lighthouse/cli/index.js'), origin, '--quiet', '--output=json', '--output-path=stdout', '--no-enable-error-reporting',
    `--only-categories=${Object.keys(categories).join()}`, '--chrome-flags=--headless=new --no-sandbox',
  ], { encoding: 'utf8', maxBuffer: 1 << 28, env: { ...process.env, CHROME_PATH: process.env['FRESHET_CHROMIUM'] ?? '/usr/bin/chromium' } });
  return JSON.parse(text) as Look;
}

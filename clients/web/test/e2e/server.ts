// A real freshetd on a private Postgres of its own, for tests of the whole.
import { execFileSync, spawn, type ChildProcess } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

const root = resolve(import.meta.dirname, '../../../..');

/** The server as it is, and one that hands out a newer version of the app. */
export interface Programs {
  now: string;
  newer: string;
}

const go = (...args: string[]): void => void execFileSync('go', ['build', '-trimpath', ...args, './cmd/freshetd'], { cwd: root, stdio: 'inherit' });

/** Builds the server into a folder. */
export function build(folder: string): string {
  const now = join(folder, 'freshetd');
  go('-o', now);
  return now;
}

/** Builds both. The newer app differs in its version, and says so on its page. */
export function buildBoth(folder: string): Programs {
  const dist = join(root, 'clients/web/dist');
  const replaced: Record<string, string> = {};
  const replace = (name: string, change: (text: string) => string): void => {
    const to = join(folder, name);
    writeFileSync(to, change(readFileSync(join(dist, name), 'utf8')));
    replaced[join(dist, name)] = to;
  };
  for (const page of ['index.html', 'opened.html']) replace(page, (text) => text.replace('<html ', '<html data-release="newer" '));
  replace('sw.js', (text) => text.replace(/[0-9a-f]{12}/, 'eeeeeeeeeeee'));
  const overlay = join(folder, 'overlay.json');
  writeFileSync(overlay, JSON.stringify({ Replace: replaced }));
  const newer = join(folder, 'freshetd-newer');
  go('-o', newer, '-overlay', overlay);
  return { now: build(folder), newer };
}

/** One cooperative's server. It keeps its records and its address through stops. */
export class Server {
  /** Its first steward's invitation. */
  code = '';
  /** Origin of the app. */
  origin = '';

  private readonly data = mkdtempSync(join(tmpdir(), 'freshet-e2e-'));
  private process: ChildProcess | undefined;

  async start(program: string): Promise<void> {
    const address = this.origin ? new URL(this.origin).host : '127.0.0.1:0';
    const process = spawn(program, ['serve', '--data', this.data, '--grpc', '127.0.0.1:0', '--http', address, '--log-level', 'error']);
    this.process = process;
    let said = '';
    await new Promise<void>((ready, failed) => {
      process.stderr.on('data', (text) => (said += text));
      process.stdout.on('data', (text) => {
        said += text;
        this.code ||= /[0-9A-Z]{4}-[0-9A-Z]{4}-[0-9A-Z]{4}/.exec(said)?.[0] ?? '';
        this.origin ||= /curl on (http:\S+)/.exec(said)?.[1] ?? '';
        if (said.includes('Freshet is ready')) ready();
      });
      process.once('exit', () => failed(new Error(said)));
    });
  }

  async stop(): Promise<void> {
    const { process } = this;
    this.process = undefined;
    if (!process) return;
    const ended = new Promise((end) => process.once('exit', end));
    process.kill('SIGTERM');
    await ended;
  }

  async remove(): Promise<void> {
    await this.stop();
    rmSync(this.data, { recursive: true, force: true });
  }
}

// A line that breaks between two bytes, wherever they are of a contact: what was
// noted is sent once, and what is new is read, when the line is whole again.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

import { afterAll, beforeAll, expect, test } from 'vitest';

import { bare } from '../bare';
import type { Hand } from '../hand';
import { Line, type Way } from './line';
import { Phone } from './phone';
import { build, Server } from './server';

/** Bytes from one cut to the next: a prime, so that it falls in step with nothing. Each byte with 1. */
const stride = Number(process.env['FRESHET_CUTS'] ?? 61);

interface InPage {
  hands: { Hand: typeof Hand };
  hand: Hand;
  other: Hand;
}

const built = mkdtempSync(join(tmpdir(), 'freshet-cuts-'));
const server = new Server();
let line: Line;
let phone: Phone;

beforeAll(async () => {
  await server.start(build(built));
  line = new Line(server.origin);
  await line.begin();
  phone = new Phone(line.origin);
  await phone.start();
  await bare(phone.page, line.origin, join(import.meta.dirname, '../hand.ts'), 'hands');
  await phone.page.evaluate(async (code) => {
    const here = globalThis as unknown as InPage;
    here.hand = new here.hands.Hand('cut');
    await here.hand.join(code);
    await here.hand.settle();
    await here.hand.sync();
    here.other = new here.hands.Hand('whole');
    await here.other.join(await here.hand.invite());
    await here.other.sync();
  }, server.code);
});

afterAll(async () => {
  await phone?.remove();
  line?.end();
  await server.remove();
  rmSync(built, { recursive: true, force: true });
});

/** Notes an entry and tries to reach the server; gives what went wrong. */
const walk = (): Promise<string> =>
  phone.page.evaluate(async () => {
    const here = globalThis as unknown as InPage;
    await here.hand.walks(1);
    return here.hand.sync().then(() => '', String);
  });

/** What both phones hold of it once they reached the server. */
const settled = (): Promise<{ own: number; others: number }> =>
  phone.page.evaluate(async () => {
    const { hand, other } = globalThis as unknown as InPage;
    await hand.sync();
    await other.sync();
    return { own: await hand.copied(), others: await other.copied() };
  });

let noted = 0;

test.each<Way>(['up', 'down'])('a line cut after any byte on its way %s', async (way) => {
  let cuts = 0;
  for (let after = 0; ; after += stride) {
    line.cut(way, after);
    const trouble = await walk();
    noted++;
    if (!line.isDown) {
      expect(trouble).toBe('');
      break;
    }
    cuts++;
    line.cut(way);
    expect(await settled(), `cut after ${after} bytes`).toEqual({ own: noted, others: noted });
  }
  expect(cuts).toBeGreaterThan(1000 / stride);
  line.cut(way);
  expect(await settled()).toEqual({ own: noted, others: noted });
});

import { expect, test } from 'vitest';

import { openDatabase } from './database';
import { empty } from './emptied';
import { fact, keepFacts } from './facts';
import { hexOf } from './ids';
import { ownKey } from './key';
import { ownInstall } from './open';

test('a device that is emptied holds nothing and is another', async () => {
  const db = await openDatabase('emptied');
  const install = await ownInstall(db);
  const before = hexOf(install);
  await ownKey(db);
  await keepFacts(db, { token: 'secret', memberId: 'somebody', next: 7 });
  await Promise.all([db.put('cursors', { scope: 'site' } as never), db.put('outcomes', { number: 3 } as never), db.put('unread', { scope: 'site', sequence: 1, part: 0 } as never)]);
  await empty(db, install);
  for (const name of db.objectStoreNames) expect([name, await db.count(name)]).toEqual([name, name === 'facts' ? 1 : 0]);
  expect(hexOf(install)).not.toBe(before);
  expect(hexOf(await ownInstall(db))).toBe(hexOf(install));
  expect([await fact(db, 'token'), await fact(db, 'key'), await fact(db, 'next')]).toEqual(['', undefined, 1]);
  db.close();
});

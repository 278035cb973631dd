import decodeQR from 'qr/decode.js';
import encodeQR from 'qr';
import { expect, test } from 'vitest';

import { invitationOf, meaningOf, tagOf } from './meaning';

const place = '0192f1aa-7c0e-8a11-8000-000000000007';

test('a tag and an invitation are read back from their squares', () => {
  for (const [text, means] of [
    [tagOf('https://pool.example', place), { place }],
    [invitationOf('https://pool.example', 'K7TQ-9XWM'), { code: 'K7TQ-9XWM', address: 'https://pool.example' }],
  ] as const) {
    const squares = encodeQR(text, 'raw', { border: 4 });
    const scale = 4;
    const size = squares.length * scale;
    const data = new Uint8Array(size * size * 4).map((_, i) => (i % 4 === 3 ? 255 : squares[Math.floor(Math.floor(i / 4) / size / scale)]![Math.floor((Math.floor(i / 4) % size) / scale)] ? 0 : 255));
    expect(meaningOf(decodeQR({ width: size, height: size, data }))).toEqual(means);
  }
});

test.each(['hello', 'https://elsewhere.example/', 'javascript:alert(1)#/join/x', `https://pool.example/#/note/../${place}`, 'https://pool.example/#/note/fish', 'data:text/html,#/join/abc'])('%s is not ours', (text) => {
  expect(meaningOf(text)).toBeUndefined();
});

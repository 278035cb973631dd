// What the keypad has on its line. Both comma and point are decimals, as the
// hand is used to; a mark before the digits says that the kit's scale ended.
import { Censoring } from '../gen/freshet/v1/reading_pb';

export type Key = '0' | '1' | '2' | '3' | '4' | '5' | '6' | '7' | '8' | '9' | 'point' | 'below' | 'above' | 'minus' | 'back';

/** What has been typed so far: "<0.25". The decimal mark is kept as a point. */
export type Typed = string;

export interface Value {
  digits: bigint;
  decimals: number;
  censoring: Censoring;
  /** As a number, for looking at. */
  number: number;
}

const longest = 10;

/** The line after one more key. A key that makes no sense there changes nothing. */
export function press(line: Typed, key: Key): Typed {
  switch (key) {
    case 'back':
      return line.slice(0, -1);
    case 'below':
    case 'above': {
      const mark = key === 'below' ? '<' : '>';
      return line.startsWith(mark) ? line.slice(1) : mark + line.replace(/^[<>-]/, '');
    }
    case 'minus':
      return line.startsWith('-') ? line.slice(1) : '-' + line.replace(/^[<>-]/, '');
    case 'point':
      if (line.includes('.')) return line;
      return /\d$/.test(line) ? line + '.' : line + '0.';
    default:
      if (line.replaceAll(/\D/g, '').length >= longest) return line;
      return /(^|[<>-])0$/.test(line) ? line.slice(0, -1) + key : line + key;
  }
}

/** The key a keyboard's key stands for. */
export function keyFor(pressed: string): Key | undefined {
  if (/^\d$/.test(pressed)) return pressed as Key;
  return ({ ',': 'point', '.': 'point', '<': 'below', '>': 'above', '-': 'minus', Backspace: 'back' } as const)[pressed];
}

/** The value typed, or nothing where there are no digits yet. */
export function valueOf(line: Typed): Value | undefined {
  const match = /^([<>-]?)(\d+)(?:\.(\d*))?$/.exec(line);
  if (!match) return undefined;
  const [, mark, whole, rest = ''] = match;
  const digits = BigInt(whole! + rest) * (mark === '-' ? -1n : 1n);
  const censoring = mark === '<' ? Censoring.BELOW : mark === '>' ? Censoring.ABOVE : Censoring.UNSPECIFIED;
  return { digits, decimals: rest.length, censoring, number: Number(digits) / 10 ** rest.length };
}

/** The line as this language writes it. */
export function shown(line: Typed, mark: string): string {
  return line.replace('.', mark).replace(/^([<>])/, '$1\u2009').replace(/^-/, '−');
}

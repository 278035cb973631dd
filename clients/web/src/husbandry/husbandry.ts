// The husbandry formulas, in this phone: the other side of clients/web/wasm.

import { openPassage } from './passage';
import type { Scroll } from './scroll';

/** What another published basis gives for the same question. */
export interface Other {
  basis: string;
  value: number;
  unit: string;
  source: string;
}

/** What a formula said. */
export interface Told {
  /** NaN where the answer is a range or words. */
  value: number;
  /** With high: a published range or an interval; both NaN where there is none. */
  low: number;
  high: number;
  /** The answer in words, where it is words. */
  text: string;
  unit: string;
  source: string;
  cautions: string[];
  others: Other[];
}

/** Why a formula gives no answer. */
export interface Refusal {
  /** "missing", "not a number", "unknown word", "unknown input", "unknown formula", "out of range", "no answer". */
  reason: string;
  /** The input it is about; empty where none is. */
  input: string;
  words: string;
  hint: string;
}

/** Inputs by name, as typed or as numbers. */
export type Given = Readonly<Record<string, string | number>>;

/** One input of a formula. */
export interface Input {
  name: string;
  meaning: string;
  unit: string;
  /** What is taken when it is not given; empty: it must be given. */
  default: string;
  low: number;
  high: number;
  /** When it is a word: the words allowed. */
  choices: string[];
}

/** A formula's words. */
export interface Formula {
  name: string;
  room: string;
  title: string;
  unit: string;
  source: string;
  range: string;
  cautions: string[];
  inputs: Input[];
}

/** The formulas, loaded. */
export interface Husbandry {
  /** Asks a formula by its name; undefined where it refuses. It may be passed on by itself. */
  readonly ask: (formula: string, given: Given) => Told | undefined;
  /** Asks, and says why where it refuses. */
  readonly askOr: (formula: string, given: Given) => Told | Refusal;
  /** A formula's words; undefined where there is none of that name. */
  readonly formula: (name: string) => Formula | undefined;
}

interface Exports {
  ask(length: number): number;
  list(): number;
}

/** Starts the formulas from their module. */
export async function startHusbandry(module: WebAssembly.Module): Promise<Husbandry> {
  const { exports, put, read } = await openPassage<Exports>(module);
  const encoder = new TextEncoder();
  const askOr = (formula: string, given: Given): Told | Refusal => {
    const lines = Object.entries(given).map(([name, value]) => `\n${name}=${value}`);
    return answer(read(exports.ask(put(encoder.encode(formula + lines.join(''))))));
  };
  let formulas: Map<string, Formula> | undefined;
  return {
    askOr,
    ask: (formula, given) => {
      const said = askOr(formula, given);
      return 'reason' in said ? undefined : said;
    },
    formula: (name) => {
      formulas ??= new Map(read(exports.list()).list(readFormula).map((f) => [f.name, f]));
      return formulas.get(name);
    },
  };
}

function answer(s: Scroll): Told | Refusal {
  if (s.letter() === 'r') return { reason: s.text(), input: s.text(), words: s.text(), hint: s.text() };
  return {
    value: s.number(), low: s.number(), high: s.number(), text: s.text(), unit: s.text(), source: s.text(),
    cautions: s.list((c) => c.text()),
    others: s.list((o) => ({ basis: o.text(), value: o.number(), unit: o.text(), source: o.text() })),
  };
}

function readFormula(s: Scroll): Formula {
  return {
    name: s.text(), room: s.text(), title: s.text(), unit: s.text(), source: s.text(), range: s.text(),
    cautions: s.list((c) => c.text()),
    inputs: s.list((i) => ({
      name: i.text(), meaning: i.text(), unit: i.text(), default: i.text(), low: i.number(), high: i.number(),
      choices: i.list((c) => c.text()),
    })),
  };
}

// How questions and answers cross to a module of clients/web/wasm and back.
import { Scroll } from './scroll';
import { system } from './wasi';

interface Crossing extends WebAssembly.Exports {
  memory: WebAssembly.Memory;
  _initialize(): void;
  room(length: number): number;
  place(): number;
}

export interface Passage<E> {
  exports: Crossing & E;
  /** Writes a question into the module's room and gives its length, as what is exported takes it. */
  put(question: Uint8Array): number;
  /** Reads an answer of the length that was returned. */
  read(length: number): Scroll;
}

/** Starts a module. */
export async function openPassage<E>(module: WebAssembly.Module): Promise<Passage<E>> {
  let exports: Crossing;
  const { imports } = system(() => exports.memory);
  const instance = await WebAssembly.instantiate(module, { wasi_snapshot_preview1: imports });
  exports = instance.exports as Crossing;
  exports._initialize();
  return {
    exports: exports as Crossing & E,
    // Memory may have grown with a call, so it is looked at anew.
    put(question) {
      const at = exports.room(question.length);
      new Uint8Array(exports.memory.buffer).set(question, at);
      return question.length;
    },
    read: (length) => new Scroll(new DataView(exports.memory.buffer, exports.place(), length)),
  };
}

import { startHusbandry, type Husbandry } from './husbandry';
import url from './husbandry.wasm?url';

let module: Promise<WebAssembly.Module> | undefined;

/** The compiled module, fetched once. */
function husbandryModule(): Promise<WebAssembly.Module> {
  module ??= WebAssembly.compileStreaming(fetch(url)).catch((error: unknown) => {
    module = undefined; // without a network the first time: asked again later
    throw error;
  });
  return module;
}

/** Loads the formulas. To be called after the first paint. */
export async function loadHusbandry(): Promise<Husbandry> {
  return startHusbandry(await husbandryModule());
}

import { compiledAside } from './aside';
import { startHusbandry, type Husbandry } from './husbandry';
import url from './husbandry.wasm?url';

let module: Promise<WebAssembly.Module> | undefined;

/** The compiled module, fetched once. */
function husbandryModule(): Promise<WebAssembly.Module> {
  module ??= compiledAside(url).catch((error: unknown) => {
    module = undefined; // without a network the first time: asked again later
    throw error;
  });
  return module;
}

/** Begins to load the formulas where they are on this phone: over a network they would hold up what comes first. */
export function foreseeHusbandry(): void {
  if (navigator.serviceWorker?.controller) husbandryModule().catch(() => undefined); // who needs them asks again
}

/** Loads the formulas. To be called after the first paint. */
export async function loadHusbandry(): Promise<Husbandry> {
  return startHusbandry(await husbandryModule());
}

// The formulas beside the page, for work that would hold up a finger.

import { startHusbandry, type Husbandry } from './husbandry';
import type { Ask, Asked } from './beside';

let husbandry: Promise<Husbandry> | undefined;

onmessage = async ({ data }: MessageEvent<WebAssembly.Module | Asked>) => {
  if (data instanceof WebAssembly.Module) {
    husbandry = startHusbandry(data);
    return;
  }
  const h = await husbandry!;
  postMessage({ number: data.number, said: data.asks.map(({ formula, given }: Ask) => h.askOr(formula, given)) });
};

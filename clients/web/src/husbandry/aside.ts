// Compiling beside the page: six megabytes of formulas would hold a phone's page
// up for a second or more.

/** What came of it: the module, or why there is none. */
export type Compiled = { module: WebAssembly.Module } | { failed: string };

/** Fetches and compiles a module in a worker, which ends with it. */
export function compiledAside(url: string): Promise<WebAssembly.Module> {
  const worker = new Worker(new URL('./compile.worker.ts', import.meta.url), { type: 'module' });
  return new Promise<WebAssembly.Module>((done, failed) => {
    worker.onmessage = ({ data }: MessageEvent<Compiled>) => ('module' in data ? done(data.module) : failed(new Error(data.failed)));
    worker.onerror = (e) => failed(new Error(e.message || 'the formulas could not be loaded'));
    worker.postMessage(url);
  }).finally(() => worker.terminate());
}

// Fetches and compiles a module for the page that started it.
import type { Compiled } from './aside';

addEventListener('message', ({ data: url }: MessageEvent<string>) => {
  WebAssembly.compileStreaming(fetch(url)).then((module) => say({ module }), (error: unknown) => say({ failed: String(error) }));
});

const say = (what: Compiled): void => postMessage(what);

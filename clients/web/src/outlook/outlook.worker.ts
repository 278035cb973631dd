// Looks ahead beside the page: a second or two of reckoning must not hold up a thumb.
import type { Answered, Call } from './beside';
import { OutlookError, startOutlook } from './learnt';
import url from './outlook.wasm?url';

const started = WebAssembly.compileStreaming(fetch(url)).then(startOutlook);
started.catch(() => undefined); // told to whoever asks

addEventListener('message', (e: MessageEvent<Call>) => {
  started.then(({ learn, ahead }) => (e.data.call === 'learn' ? learn(...e.data.given) : ahead(...e.data.given))).then(
    (answer) => say({ answer }),
    (error: unknown) => say(error instanceof OutlookError ? { refused: { what: error.what, words: error.message } } : { failed: String(error) }),
  );
});

const say = (what: Answered): void => postMessage(what);

// A device's way to the server, with its faults by the names of calls.
import type { Step } from './history';

export class Network {
  private faults: Pick<Step, 'cut' | 'lose' | 'double' | 'break'> = {};

  set({ cut, lose, double, break: after }: Step): void {
    this.faults = { ...(cut && { cut }), ...(lose && { lose }), ...(double && { double }), ...(after && { break: after }) };
  }

  /** Fetches as this network lets it. */
  async fetch(plain: typeof fetch, input: RequestInfo | URL, init?: RequestInit): Promise<Response> {
    const address = input instanceof Request ? input.url : String(input);
    const call = address.slice(address.lastIndexOf('/') + 1);
    const { cut, lose, double, break: after } = this.faults;
    if (cut?.includes(call)) throw new TypeError('the line broke');
    if (double?.includes(call)) await (await plain(input, init)).arrayBuffer();
    const answer = await plain(input, init);
    if (lose?.includes(call)) {
      await answer.arrayBuffer();
      throw new TypeError('the line broke');
    }
    const streams = answer.headers.get('content-type')?.startsWith('application/connect+') === true;
    return after && streams && answer.body ? new Response(breaking(answer.body, after), answer) : answer;
  }
}

/** Lets so many messages of a stream through: each stands behind five bytes, of which the last four tell its length. */
function breaking(body: ReadableStream<Uint8Array>, messages: number): ReadableStream<Uint8Array> {
  const reader = body.getReader();
  let held = new Uint8Array();
  let left = messages;
  return new ReadableStream({
    async pull(out) {
      if (left-- === 0) {
        await reader.cancel();
        return out.error(new TypeError('the line broke'));
      }
      const size = (): number => (held.length < 5 ? Infinity : 5 + new DataView(held.buffer).getUint32(1));
      while (held.length < size()) {
        const { value, done } = await reader.read();
        if (done) return out.close();
        held = new Uint8Array([...held, ...value]);
      }
      out.enqueue(held.slice(0, size()));
      held = held.slice(size());
    },
  }, { highWaterMark: 0 });
}

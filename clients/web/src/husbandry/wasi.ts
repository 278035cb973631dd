// What Go's runtime asks of the system it runs on. Husbandry reads no clock, no
// file and no network; the runtime itself wants random bytes, a clock, and a
// place to write down why it had to stop.

const noFile = 8; // EBADF

/** Gives the imports of a Go program, and what it wrote when it stopped. */
export function system(memory: () => WebAssembly.Memory): { imports: WebAssembly.ModuleImports; wrote(): string } {
  const view = () => new DataView(memory().buffer);
  const text: string[] = [];
  const decoder = new TextDecoder();
  const empty = (count: number, size: number) => {
    view().setUint32(count, 0, true);
    view().setUint32(size, 0, true);
    return 0;
  };
  return {
    wrote: () => text.join(''),
    imports: {
      args_sizes_get: empty,
      args_get: () => 0,
      environ_sizes_get: empty,
      environ_get: () => 0,
      sched_yield: () => 0,
      poll_oneoff: () => 52, // not supported: nothing here waits
      // There are no files: a table that is built in brings packages that look for some as they start.
      fd_fdstat_get: () => noFile,
      fd_fdstat_set_flags: () => noFile,
      fd_prestat_get: () => noFile,
      fd_prestat_dir_name: () => noFile,
      random_get(at: number, length: number) {
        crypto.getRandomValues(new Uint8Array(memory().buffer, at, length));
        return 0;
      },
      clock_time_get(_clock: number, _precision: bigint, at: number) {
        view().setBigUint64(at, BigInt(Math.round(performance.now() * 1e6)), true);
        return 0;
      },
      fd_write(_file: number, pieces: number, count: number, written: number) {
        let sum = 0;
        for (let i = 0; i < count; i++) {
          const [start, length] = [view().getUint32(pieces + 8 * i, true), view().getUint32(pieces + 8 * i + 4, true)];
          text.push(decoder.decode(new Uint8Array(memory().buffer, start, length)));
          sum += length;
        }
        view().setUint32(written, sum, true);
        return 0;
      },
      proc_exit(code: number) {
        throw new Error(`husbandry stopped (${code}): ${text.join('')}`);
      },
    },
  };
}

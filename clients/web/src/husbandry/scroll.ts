const decoder = new TextDecoder();

/** Reads numbers and texts one after the other, as clients/web/wasm writes them. */
export class Scroll {
  private at = 0;

  constructor(private readonly view: DataView) {}

  letter(): string {
    return String.fromCharCode(this.view.getUint8(this.at++));
  }

  number(): number {
    const v = this.view.getFloat64(this.at, true);
    this.at += 8;
    return v;
  }

  text(): string {
    const length = this.count();
    const bytes = new Uint8Array(this.view.buffer, this.view.byteOffset + this.at, length);
    this.at += length;
    return decoder.decode(bytes);
  }

  list<T>(each: (s: Scroll) => T): T[] {
    return Array.from({ length: this.count() }, () => each(this));
  }

  private count(): number {
    const n = this.view.getUint32(this.at, true);
    this.at += 4;
    return n;
  }
}

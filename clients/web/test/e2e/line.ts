// A line to a server that can be cut after any byte of either direction.
import { connect, createServer, type AddressInfo, type Server, type Socket } from 'node:net';

export type Way = 'up' | 'down';

export class Line {
  origin = '';
  private readonly server: Server;
  private readonly open = new Set<Socket>();
  private cutting: { way: Way; left: number } | undefined;
  private down = false;

  constructor(to: string) {
    const { hostname, port } = new URL(to);
    this.server = createServer((near) => {
      if (this.down) {
        near.destroy();
        return;
      }
      const far = connect(Number(port), hostname);
      this.carry('up', near, far);
      this.carry('down', far, near);
    });
  }

  async begin(): Promise<void> {
    await new Promise<void>((listening) => this.server.listen(0, '127.0.0.1', listening));
    this.origin = `http://127.0.0.1:${(this.server.address() as AddressInfo).port}`;
  }

  private carry(way: Way, from: Socket, to: Socket): void {
    this.open.add(from);
    from.on('data', (bytes) => {
      const cut = this.cutting?.way === way ? this.cutting : undefined;
      if (!cut || bytes.length <= cut.left) {
        if (cut) cut.left -= bytes.length;
        return void to.write(bytes);
      }
      this.down = true;
      to.write(bytes.subarray(0, cut.left), () => this.hangUp());
    });
    from.on('error', () => undefined);
    from.on('close', () => (this.open.delete(from), to.destroy()));
  }

  private hangUp(): void {
    for (const socket of this.open) socket.destroy();
  }

  /** From now on so many bytes pass this way, then the line is down; without a number it is whole again. */
  cut(way: Way, after?: number): void {
    this.hangUp();
    this.down = false;
    this.cutting = after === undefined ? undefined : { way, left: after };
  }

  /** Whether it was cut. */
  get isDown(): boolean {
    return this.down;
  }

  end(): void {
    this.hangUp();
    this.server.close();
  }
}

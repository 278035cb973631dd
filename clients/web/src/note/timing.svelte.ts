// The minutes a test needs. They run on while other pages are open.

class Timing {
  /** When it ends, by the page's own clock; 0: none runs. */
  ends = $state(0);
  now = $state(0);
  private beat: ReturnType<typeof setInterval> | undefined;

  start(minutes: number): void {
    this.ends = performance.now() + minutes * 60_000;
    clearInterval(this.beat);
    this.tick();
    this.beat = setInterval(() => this.tick(), 500);
  }

  stop(): void {
    clearInterval(this.beat);
    this.ends = 0;
  }

  get left(): number {
    return Math.max(0, Math.ceil((this.ends - this.now) / 1000));
  }

  private tick(): void {
    this.now = performance.now();
    if (this.ends > this.now) return;
    clearInterval(this.beat);
    navigator.vibrate?.([300, 120, 300]);
  }
}

export const timing = new Timing();

// Ink on a canvas: at most two strokes for each px column, whatever the number of points.

export interface Plotted {
  ms: Float64Array;
  values: Float64Array;
  band?: readonly [number, number] | undefined;
  marks: readonly { at: number; words: string }[];
}

export interface Look {
  from: number;
  to: number;
  width: number;
  height: number;
}

const margin = { top: 12, bottom: 24, left: 44, right: 6 };

/** Draws readings; the vertical scale fits what is seen. */
export function draw(canvas: HTMLCanvasElement, p: Plotted, look: Look, number: (v: number) => string, day: (at: number) => string): void {
  const ratio = devicePixelRatio || 1;
  canvas.width = look.width * ratio;
  canvas.height = look.height * ratio;
  const c = canvas.getContext('2d')!;
  const ink = getComputedStyle(canvas);
  const colour = (name: string): string => ink.getPropertyValue(name);
  c.scale(ratio, ratio);
  c.font = `12.5px ${ink.fontFamily}`;
  const first = lower(p.ms, look.from);
  const last = lower(p.ms, look.to);
  let low = p.band?.[0] ?? Infinity;
  let high = p.band?.[1] ?? -Infinity;
  for (let i = Math.max(0, first - 1); i <= Math.min(last, p.values.length - 1); i++) {
    low = Math.min(low, p.values[i]!);
    high = Math.max(high, p.values[i]!);
  }
  if (!(high >= low)) return;
  const room = (high - low || 1) * 0.08;
  const x = (at: number): number => margin.left + ((at - look.from) / (look.to - look.from)) * (look.width - margin.left - margin.right);
  const y = (v: number): number => margin.top + (1 - (v - low + room) / (high - low + 2 * room)) * (look.height - margin.top - margin.bottom);
  if (p.band) {
    c.fillStyle = colour('--water');
    c.fillRect(margin.left, y(p.band[1]), look.width - margin.left - margin.right, y(p.band[0]) - y(p.band[1]));
  }
  c.fillStyle = colour('--ink-second');
  for (const v of [low, (low + high) / 2, high]) c.fillText(number(v), 0, y(v) + 4);
  c.textAlign = 'start';
  c.fillText(day(look.from), margin.left, look.height - 5);
  c.textAlign = 'end';
  c.fillText(day(look.to), look.width - margin.right, look.height - 5);
  c.save();
  c.beginPath();
  c.rect(margin.left, 0, look.width - margin.left - margin.right, look.height);
  c.clip();
  c.strokeStyle = colour('--ink');
  c.lineWidth = 1.6;
  c.lineJoin = 'round';
  line(c, p, first, last, x, y);
  c.strokeStyle = colour('--madder');
  for (const m of p.marks) {
    c.beginPath();
    c.moveTo(x(m.at), margin.top);
    c.lineTo(x(m.at), look.height - margin.bottom);
    c.setLineDash([3, 4]);
    c.stroke();
  }
  c.restore();
}

/** The line; where many points share a px, from the lowest to the highest of them. */
function line(c: CanvasRenderingContext2D, p: Plotted, first: number, last: number, x: (at: number) => number, y: (v: number) => number): void {
  c.beginPath();
  let column = -Infinity;
  let low = 0;
  let high = 0;
  for (let i = Math.max(0, first - 1); i <= Math.min(last, p.ms.length - 1); i++) {
    const px = x(p.ms[i]!);
    const py = y(p.values[i]!);
    if (px - column < 1) {
      if (py < low) c.lineTo(column, (low = py));
      else if (py > high) c.lineTo(column, (high = py));
      continue;
    }
    if (column === -Infinity) c.moveTo(px, py);
    else c.lineTo(px, py);
    column = px;
    low = high = py;
  }
  c.stroke();
}

/** The first index at or after a moment. */
function lower(ms: Float64Array, at: number): number {
  let a = 0;
  let b = ms.length;
  while (a < b) {
    const m = (a + b) >> 1;
    if (ms[m]! < at) a = m + 1;
    else b = m;
  }
  return a;
}

// A bed from above: its rows, and on them one mark for each plant as far as it has come.
import { dice, stroke } from './hand';

/** How far a planting has come: 0 sown, 1 bears. */
export interface Standing {
  grown: number;
  bears: boolean;
}

export interface BedPlan {
  frame: string;
  /** Seeds and stems. */
  stems: string;
  /** Fruit, where it bears. */
  fruit: { x: number; y: number }[];
  width: number;
  height: number;
}

const rowGap = 11;
const plantGap = 8;

/** Draws a bed of this many px² around its upper left corner; the rows run with its length. */
export function bedPlan(area: number, standing: Standing | undefined, seed: string, most: { width: number; height: number }): BedPlan {
  const width = Math.round(Math.max(26, Math.min(most.width, Math.sqrt(area * 2.4))));
  const height = Math.round(Math.max(20, Math.min(most.height, area / width)));
  const throws = dice(seed);
  const corners = [[0, 0], [width, 0], [width, height], [0, height]] as const;
  const frame = corners.map((c, i) => stroke(c, corners[(i + 1) % 4]!, throws, 0.6)).join('');
  return { frame, ...plants(width, height, standing, throws), width, height };
}

function plants(width: number, height: number, standing: Standing | undefined, throws: () => number): Pick<BedPlan, 'stems' | 'fruit'> {
  if (!standing) return { stems: '', fruit: [] };
  const rows = Math.max(1, Math.floor((height - 5) / rowGap));
  const each = Math.max(2, Math.floor((width - 8) / plantGap));
  const tall = 1.2 + 7 * Math.sqrt(Math.min(1, standing.grown));
  let stems = '';
  const fruit: BedPlan['fruit'] = [];
  for (let row = 0; row < rows; row++) {
    const ground = ((row + 1) * height) / rows - Math.max(3.5, (height / rows - tall) / 2);
    for (let i = 0; i < each; i++) {
      const x = 5 + ((i + 0.5) * (width - 10)) / each + (throws() - 0.5) * 1.6;
      stems += plant(x, ground, tall * (0.85 + throws() * 0.3), throws);
      if (standing.bears && (i + row) % 2 === 0) fruit.push({ x: Math.round(x * 10) / 10, y: Math.round((ground - tall) * 10) / 10 });
    }
  }
  return { stems, fruit };
}

/** A stem, and a side shoot once it is tall enough. */
function plant(x: number, ground: number, tall: number, throws: () => number): string {
  const f = (v: number): string => v.toFixed(1);
  const lean = (throws() - 0.5) * 2;
  const stem = `M${f(x)} ${f(ground)}q${f(lean / 2)} ${f(-tall / 2)} ${f(lean)} ${f(-tall)}`;
  if (tall < 4.5) return stem;
  const side = throws() < 0.5 ? -1 : 1;
  return `${stem}M${f(x + lean / 2)} ${f(ground - tall * 0.45)}q${f(side * 1.2)} ${f(-1.6)} ${f(side * 2.7)} ${f(-2.2)}`;
}

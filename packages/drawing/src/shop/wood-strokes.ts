/** A length of sawn wood in a picture, its face up: units of the picture. */
export interface Face {
  readonly x: number;
  readonly y: number;
  readonly wide: number;
  readonly high: number;
}

/** How far the edge behind a face and its end are seen: to the right, and up. */
export interface Depth {
  readonly across: number;
  readonly up: number;
}

/** Between lines of grain, and of the strokes that one is drawn in. */
const APART = 8;
const MOST_LINES = 11;
const STEP = 55;
const STROKE = 330;
const BARE = 26;
/** Between one tongue of the grain and the next, and how long it is. */
const TONGUES = 460;
const TONGUE = 210;
/** A face lower than this has no room for tongues. */
const LEAST_TONGUE = 34;
/** Steps of the golden section: they look as if by chance, and are the same each time. */
const GOLDEN = 0.618_033_988_75;

const chance = (seed: number): number => {
  const mixed = (seed + 1) * GOLDEN * 7.31;
  return mixed - Math.floor(mixed);
};

/**
 * Grain along a face sawn from the outside of a log: lines along its edges, and nested tongues in its middle.
 * @param seed tells boards apart; the same one has the same grain
 */
export function grainOf({ x, y, wide, high }: Face, seed: number): string {
  const lines = Math.max(2, Math.min(MOST_LINES, Math.round(high / APART)));
  const gap = high / lines;
  const paths: string[] = [];
  const hasTongues = high >= LEAST_TONGUE;
  for (let line = 0; line < lines; line += 1) {
    const middle = y + (line + 0.5) * gap;
    // Where tongues run, lines are left to the edges.
    if (hasTongues && Math.abs(middle - y - high / 2) < high * 0.26) continue;
    const sway = gap * 0.3;
    const turn = chance(seed * 31 + line) * 6.28;
    const length = 150 + 90 * chance(seed * 17 + line);
    const at = (along: number): number =>
      middle + sway * Math.sin(along / length + turn) * Math.min(1, 0.5 + along / 900);
    let from = chance(seed + line * 13) * STROKE * 0.4 - STROKE * 0.3;
    while (from < wide) {
      const stroke = STROKE * (0.6 + 0.8 * chance(seed * 5 + line + from));
      const [a, b] = [Math.max(1.5, from), Math.min(wide - 1.5, from + stroke)];
      if (b - a > 4) paths.push(smooth(a, b, x, at));
      from += stroke + BARE;
    }
  }
  if (!hasTongues) return paths.join('');
  for (let at = TONGUES * (chance(seed) - 0.6); at < wide; at += TONGUES) {
    for (let ring = 0; ring < 3; ring += 1) {
      const tip = at + TONGUE + ring * 34;
      const from = Math.max(1.5, at - ring * 20);
      const half = high * (0.07 + 0.075 * ring);
      if (tip > wide - 2 || tip - from < 40) continue;
      const [left, right, middle] = [n(x + from), n(x + tip), y + high / 2];
      const bend = n(x + from + (tip - from) * 0.62);
      paths.push(
        `M${left} ${n(middle - half)}C${bend} ${n(middle - half)} ${right} ${n(middle - half * 0.6)} ${right} ${n(middle)}`,
        `S${bend} ${n(middle + half)} ${left} ${n(middle + half)}`,
      );
    }
  }
  return paths.join('');
}

/** A line without corners through what a curve comes to at each step. */
function smooth(from: number, to: number, x: number, at: (along: number) => number): string {
  let path = `M${n(x + from)} ${n(at(from))}`;
  let along = from + STEP;
  for (; along < to - STEP / 2; along += STEP) {
    const next = along + STEP / 2;
    path += `Q${n(x + along)} ${n(at(along))} ${n(x + next)} ${n(at(next))}`;
  }
  return `${path}L${n(x + to)} ${n(at(to))}`;
}

/** The edge behind a face and the end of a board, as outlines. */
export const sidesOf = (
  { x, y, wide, high }: Face,
  { across, up }: Depth,
): { readonly edge: string; readonly end: string } => ({
  edge: `M${n(x)} ${n(y)}l${n(across)} ${n(-up)}h${n(wide)}l${n(-across)} ${n(up)}z`,
  end: `M${n(x + wide)} ${n(y)}l${n(across)} ${n(-up)}v${n(high)}l${n(-across)} ${n(up)}z`,
});

/** Growth rings on the end of a board: they run from the face to the back, and turn over in its middle. */
export function ringsOf({ x, y, wide, high }: Face, { across, up }: Depth): string {
  const spot = (u: number, v: number): string =>
    `${n(x + wide + u * across)} ${n(y + v * high - u * up)}`;
  const rings: string[] = [];
  const count = Math.max(3, Math.round(high / 9));
  for (let ring = 1; ring <= count; ring += 1) {
    const off = (ring / (count + 1)) * 0.5;
    const [one, other] = [0.5 - off, 0.5 + off];
    const reach = off * 1.35;
    if (off < 0.17) {
      rings.push(`M${spot(0, one)}Q${spot(Math.min(1, off * 7), 0.5)} ${spot(0, other)}`);
    } else if (reach < 0.49) {
      for (const side of [-1, 1]) {
        rings.push(
          `M${spot(0, 0.5 + side * off * 0.9)}Q${spot(0.4, 0.5 + side * off)} ${spot(1, 0.5 + side * off * 0.72)}`,
        );
      }
    } else {
      rings.push(`M${spot(0, one)}L${spot(0.8, one)}`, `M${spot(0, other)}L${spot(0.8, other)}`);
    }
  }
  return rings.join('');
}

/** Layers of a sheet, on its end and along its edge. */
export function layersOf({ x, y, wide, high }: Face, { across, up }: Depth): string {
  return [1 / 3, 2 / 3]
    .map((u) => `M${n(x + u * across)} ${n(y - u * up)}h${n(wide)}v${n(high)}`)
    .join('');
}

/** A cross as a maker chalks it on what is waste, by hand: its strokes bend a little. */
export function crossOf(x: number, y: number, size: number): string {
  const half = size / 2;
  const bend = size * 0.12;
  return [
    `M${n(x - half)} ${n(y - half)}Q${n(x + bend)} ${n(y - bend)} ${n(x + half)} ${n(y + half)}`,
    `M${n(x + half)} ${n(y - half * 1.05)}Q${n(x - bend)} ${n(y - bend)} ${n(x - half * 0.95)} ${n(y + half)}`,
  ].join('');
}

/** Half a wave of the line over waste: so long at the usual, by hand. */
const HALF_WAVE = 17;
const TALLEST = 11;

/** The wavy line that a maker draws over the rest of it; none where there is no room for two waves. */
export function waveOf(from: number, to: number, y: number, high: number): string {
  const halves = Math.floor((to - from) / HALF_WAVE);
  if (halves < 4) return '';
  const tall = Math.min(high * 0.3, TALLEST);
  let path = `M${n(from)} ${n(y)}`;
  let at = from;
  for (let half = 0; half < halves; half += 1) {
    const last = half === halves - 1;
    const next = last ? to : from + ((half + 0.7 + 0.6 * chance(half)) / halves) * (to - from);
    const up = (half % 2 === 0 ? -1 : 1) * tall * (0.65 + 0.7 * chance(half + 40));
    path += `Q${n((at + next) / 2)} ${n(y + up * 1.5)} ${n(next)} ${n(y)}`;
    at = next;
  }
  return path;
}

/** A crow's foot: two strokes that meet at the very place of a mark. */
export const footOf = (x: number, y: number, size: number): string =>
  `M${n(x - size * 0.55)} ${n(y + size)}L${n(x)} ${n(y)}L${n(x + size * 0.55)} ${n(y + size)}`;

/** Written to a hundredth of a unit. */
export const n = (value: number): string => String(Number(value.toFixed(2)) || 0);

type Spot = readonly [number, number];

/** An ellipse; a circle where both half sizes are the same. */
export interface Conic {
  /** Its middle, mm. */
  readonly x: number;
  /** Its middle upwards, mm. */
  readonly y: number;
  /** Half of its longer way across, mm. */
  readonly major: number;
  /** Half of its shorter one, mm. */
  readonly minor: number;
  /** Of its longer way across, radians from the right, anticlockwise. */
  readonly turn: number;
}

/** Where a spot lies around a conic, as the angle of the circle that it is drawn out of; radians, −π to π. */
export function paramOf({ x, y, major, minor, turn }: Conic, [px, py]: Spot): number {
  const [dx, dy] = [px - x, py - y];
  const u = dx * Math.cos(turn) + dy * Math.sin(turn);
  const v = dy * Math.cos(turn) - dx * Math.sin(turn);
  return Math.atan2(v / minor, u / major);
}

/** Longer than this against its shorter way, it is as good as a line. */
const FLATTEST = 1e3;

/**
 * The ellipse that spots lie on, by least squares of a x² + b xy + c y² + d x + e y = 1 about their middle, in their
 * own size; undefined where it is none.
 */
export function ellipseThrough(spots: readonly Spot[]): Conic | undefined {
  const middle = [0, 1].map(
    (k) => spots.reduce((sum, spot) => sum + (spot[k] ?? 0), 0) / spots.length,
  );
  const [mx = 0, my = 0] = middle;
  const size = Math.max(...spots.map(([x, y]) => Math.hypot(x - mx, y - my)));
  if (size === 0) return undefined;
  const rows = spots.map(([px, py]) => {
    const [x, y] = [(px - mx) / size, (py - my) / size];
    return [x * x, x * y, y * y, x, y];
  });
  const solved = leastSquares(rows);
  if (solved === undefined) return undefined;
  const [a = 0, b = 0, c = 0, d = 0, e = 0] = solved;
  const det = 4 * a * c - b * b;
  if (!(det > 0)) return undefined;
  const x = (b * e - 2 * c * d) / det;
  const y = (b * d - 2 * a * e) / det;
  const scale = 1 + a * x * x + b * x * y + c * y * y;
  const mean = (a + c) / 2;
  const spread = Math.hypot((a - c) / 2, b / 2);
  const [flat, steep] = [scale / (mean - spread), scale / (mean + spread)];
  if (!(flat > 0 && steep > 0) || flat > FLATTEST ** 2 * steep) return undefined;
  return {
    x: mx + size * x,
    y: my + size * y,
    major: size * Math.sqrt(flat),
    minor: size * Math.sqrt(steep),
    turn: spread < 1e-12 ? 0 : Math.atan2(-b, c - a) / 2,
  };
}

/** The numbers whose sum with each row comes nearest to 1. */
function leastSquares(rows: readonly (readonly number[])[]): number[] | undefined {
  const count = 5;
  const system = Array.from({ length: count }, (_, i) => [
    ...Array.from({ length: count }, (__, j) =>
      rows.reduce((sum, row) => sum + (row[i] ?? 0) * (row[j] ?? 0), 0),
    ),
    rows.reduce((sum, row) => sum + (row[i] ?? 0), 0),
  ]);
  for (let k = 0; k < count; k++) {
    let best = k;
    for (let i = k + 1; i < count; i++) {
      if (Math.abs(system[i]?.[k] ?? 0) > Math.abs(system[best]?.[k] ?? 0)) best = i;
    }
    const [row, other] = [system[k] as number[], system[best] as number[]];
    system[k] = other;
    system[best] = row;
    const pivot = other[k] ?? 0;
    if (Math.abs(pivot) < 1e-14) return undefined;
    for (let i = 0; i < count; i++) {
      if (i === k) continue;
      const line = system[i] as number[];
      const share = (line[k] ?? 0) / pivot;
      for (let j = k; j <= count; j++) line[j] = (line[j] ?? 0) - share * (other[j] ?? 0);
    }
  }
  return system.map((row, k) => (row[count] ?? 0) / (row[k] ?? 1));
}

/** A writing of an SVG in its place; in units of the SVG's own `viewBox`. */
export interface PlacedText {
  readonly text: string;
  readonly size: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Six numbers as SVG's `matrix` has them. */
type Matrix = readonly [number, number, number, number, number, number];

const AS_IS: Matrix = [1, 0, 0, 1, 0, 0];

/** Mean width of a letter, as `packages/drawing` reckons it, and how far letters reach above and below their line. */
const LETTER = 0.56;
const UP = 0.74;
const DOWN = 0.2;

interface Within {
  readonly matrix: Matrix;
  readonly size: number;
  readonly anchor: string;
}

/** Every writing of an SVG, of pictures within it too, with the box that it takes after the mean width of letters. */
export function textsIn(svg: string): readonly PlacedText[] {
  const open: Within[] = [{ matrix: AS_IS, size: 16, anchor: 'start' }];
  const found: PlacedText[] = [];
  let isFirst = true;
  for (const [, closing, tag = '', words = '', , inside = ''] of svg.matchAll(
    /<(\/?)([a-z]+)((?:\s+[\w:-]+="[^"]*")*)\s*(\/?)>([^<]*)/gi,
  )) {
    const own = Object.fromEntries(
      [...words.matchAll(/([\w:-]+)="([^"]*)"/g)].map(([, name, value]) => [name, value]),
    ) as Readonly<Record<string, string>>;
    if (tag !== 'g' && tag !== 'svg' && tag !== 'text') continue;
    if (closing === '/') {
      if (tag !== 'text') open.pop();
      continue;
    }
    const around = open.at(-1) as Within;
    const size = own['font-size'] === undefined ? around.size : Number(own['font-size']);
    const anchor = own['text-anchor'] ?? around.anchor;
    const inner = tag === 'svg' && !isFirst ? viewOf(own) : turnOf(own.transform ?? '');
    isFirst = false;
    const matrix = times(around.matrix, inner);
    if (tag === 'text') found.push(boxOf(unescaped(inside), own, { matrix, size, anchor }));
    else open.push({ matrix, size, anchor });
  }
  return found;
}

function boxOf(
  text: string,
  own: Readonly<Record<string, string>>,
  { matrix, size, anchor }: Within,
): PlacedText {
  const wide = [...text].length * LETTER * size;
  const [x, y] = [Number(own.x), Number(own.y)];
  const left = anchor === 'middle' ? x - wide / 2 : anchor === 'end' ? x - wide : x;
  const corners = [left, left + wide].flatMap((across) =>
    [y - UP * size, y + DOWN * size].map((down) => at(matrix, across, down)),
  );
  const [xs, ys] = [corners.map(([one]) => one), corners.map(([, one]) => one)];
  return {
    text,
    size: size * Math.hypot(matrix[0], matrix[1]),
    left: Math.min(...xs),
    right: Math.max(...xs),
    top: Math.min(...ys),
    bottom: Math.max(...ys),
  };
}

/** A picture within another: its own units are fitted into its place, and stand in the middle of it. */
function viewOf(own: Readonly<Record<string, string>>): Matrix {
  const [left = 0, top = 0, wide = 1, high = 1] = (own.viewBox ?? '').split(' ').map(Number);
  const [x, y, room, tall] = ['x', 'y', 'width', 'height'].map((name) => Number(own[name]));
  const scale = Math.min((room ?? 0) / wide, (tall ?? 0) / high);
  const [dx, dy] = [((room ?? 0) - wide * scale) / 2, ((tall ?? 0) - high * scale) / 2];
  return [scale, 0, 0, scale, (x ?? 0) + dx - left * scale, (y ?? 0) + dy - top * scale];
}

function turnOf(words: string): Matrix {
  let all = AS_IS;
  for (const [, kind, inside = ''] of words.matchAll(/(\w+)\(([^)]*)\)/g)) {
    const [a = 0, b = 0, c = 0] = inside.split(/[\s,]+/).map(Number);
    if (kind === 'translate') all = times(all, [1, 0, 0, 1, a, b]);
    else if (kind === 'scale') all = times(all, [a, 0, 0, a, 0, 0]);
    else if (kind === 'rotate') {
      const [s, k] = [Math.sin((a * Math.PI) / 180), Math.cos((a * Math.PI) / 180)];
      all = times(times(times(all, [1, 0, 0, 1, b, c]), [k, s, -s, k, 0, 0]), [1, 0, 0, 1, -b, -c]);
    } else throw new Error(`no such turn: ${kind}`);
  }
  return all;
}

const times = (m: Matrix, o: Matrix): Matrix => [
  m[0] * o[0] + m[2] * o[1],
  m[1] * o[0] + m[3] * o[1],
  m[0] * o[2] + m[2] * o[3],
  m[1] * o[2] + m[3] * o[3],
  m[0] * o[4] + m[2] * o[5] + m[4],
  m[1] * o[4] + m[3] * o[5] + m[5],
];

const at = (m: Matrix, x: number, y: number): readonly [number, number] => [
  m[0] * x + m[2] * y + m[4],
  m[1] * x + m[3] * y + m[5],
];

const unescaped = (text: string): string =>
  text
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll('&amp;', '&');

import { inRow, roomOf } from './beside.ts';
import { FIGURE, n, type Picture, type Spot, widthOf, wrapped } from './picture.ts';

/** What is written at the right of a drawing, pointing at a spot of it; units from its upper left. */
interface SideName {
  readonly words: string;
  readonly spot: Spot;
}

/** From the drawing to its names. */
const OFF = 22;
const TALL = FIGURE.line * 0.85;

/** A drawing with its names in a column at the right, in the order of their places down it, none over another. */
export function sideNames(
  picture: Picture,
  drawn: { readonly wide: number; readonly high: number; readonly body: string },
  names: readonly SideName[],
): void {
  const begin = picture.bottom === 0 ? FIGURE.edge : picture.bottom + FIGURE.edge;
  const room = FIGURE.wide - 2 * FIGURE.edge - drawn.wide - OFF;
  const set = [...names]
    .sort((a, b) => a.spot[1] - b.spot[1])
    .map(({ words, spot }) => {
      const spoken = picture.speak(words);
      const lines = wrapped(spoken.words, room).map((one) => ({ ...spoken, words: one }));
      return { lines, spot, size: lines.length * TALL };
    });
  const column = Math.max(0, ...set.flatMap(({ lines }) => lines.map((one) => widthOf(one.words))));
  const need = roomOf(
    set.map(({ size }) => size),
    3,
  );
  const tall = Math.max(drawn.high, need);
  const left = Math.max(FIGURE.edge, (FIGURE.wide - drawn.wide - OFF - column) / 2);
  const top = begin + (tall - drawn.high) / 2;
  picture.add(`<g transform="translate(${n(left)} ${n(top)})">${drawn.body}</g>`, begin + tall);
  const middles = inRow(
    set.map(({ spot, size }) => ({ wants: top + spot[1], size })),
    [begin, begin + tall],
    3,
  );
  const x = left + drawn.wide + OFF;
  for (const [i, { lines, spot, size }] of set.entries()) {
    const middle = middles[i] as number;
    const [dotX, dotY] = [left + spot[0], top + spot[1]];
    picture.path('kb-leader', `M${n(dotX)} ${n(dotY)}H${n(dotX + 6)}L${n(x - 3)} ${n(middle)}`);
    for (const [k, words] of lines.entries()) {
      picture.write([x, middle - size / 2 + FIGURE.text * 0.9 + k * TALL], words, 'start');
    }
  }
}

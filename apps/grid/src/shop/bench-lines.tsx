import type { CutItem } from '@kerfbook/drawing';
import type { BenchBoard, BenchPiece } from './bench-boards.ts';
import { allCutAtOther, cutAtOther } from './bench-cut-before.tsx';
import type { WrongSize } from './reckoned.ts';
import { type BenchLine, tickKey } from './ticks.ts';
import { capital, whichSaid } from './words.ts';

/** How pieces are written and ticked off. */
export interface Ticking {
  readonly write: (mm: number) => string;
  readonly isDone: (piece: BenchPiece) => boolean;
  /** True: it was cut already when only the rest was asked for. */
  readonly isHidden: (piece: BenchPiece) => boolean;
  /** Pieces that are cut at sizes their parts no longer have. */
  readonly wrong: readonly WrongSize[];
  readonly tick: (piece: BenchPiece, cut: boolean) => void;
}

/** So many boxes stand in a line; more are counted up and down. */
const MOST_BOXES = 12;

interface BoardCardProps extends Ticking {
  readonly board: BenchBoard;
}

/** A board with its pieces in the order in which they are cut. */
export function BoardCard({ board, write, isDone, isHidden, wrong, tick }: BoardCardProps) {
  const left = board.pieces.filter((piece) => !isDone(piece)).length;
  return (
    <section className="bench-board" aria-label={`${board.says} ${board.about}`}>
      <h2>
        {board.says} <span className="quiet">{board.about}</span>
        <span className="bench-left">{left === 0 ? 'all cut' : `${left} to cut`}</span>
      </h2>
      <ul className="bench-list">
        {board.pieces.map((one) => {
          const { item, piece } = one;
          if (isHidden(one)) return null;
          const done = isDone(one);
          const other = done ? undefined : cutAtOther(wrong, item, piece);
          const which = whichSaid(item, piece);
          return (
            <li
              key={`${item.at.row} ${item.name} ${piece}`}
              className="bench-line"
              data-done={done}
            >
              <label className="bench-whole">
                <input
                  type="checkbox"
                  checked={done}
                  aria-label={`${item.name} ${which}, ${sizeOf(item, write)}, cut`}
                  aria-description={other}
                  onChange={(event) => tick(one, event.target.checked)}
                />
                <span className="bench-name">
                  {item.name} <span className="quiet">{which}</span>
                  <Other says={other} />
                </span>
                <Size item={item} write={write} />
              </label>
            </li>
          );
        })}
      </ul>
    </section>
  );
}

interface StepLinesProps extends Ticking {
  readonly steps: readonly BenchLine[];
  readonly cutOf: (step: BenchLine) => number;
}

/** What is done to pieces once they are cut, in order; nothing where there is nothing. */
export function StepLines({ steps, cutOf, ...ticking }: StepLinesProps) {
  if (steps.length === 0) return null;
  return (
    <section className="bench-then" aria-label="Once they are cut">
      <h2>
        Once they are cut <span className="quiet">in this order</span>
      </h2>
      <ul className="bench-list">
        {steps.map((step) => (
          <PartLine
            key={tickKey(step)}
            item={step}
            isStep
            hasTwin={false}
            cut={cutOf(step)}
            {...ticking}
          />
        ))}
      </ul>
    </section>
  );
}

interface PartLineProps extends Ticking {
  readonly item: BenchLine;
  /** Another line is of the same name: only its size tells them apart. */
  readonly hasTwin: boolean;
  readonly cut: number;
  /** It is done to pieces that are cut already: its words say all of it. */
  readonly isStep?: boolean;
}

/** A line of the cut list with a box for each of its pieces. */
export function PartLine(props: PartLineProps) {
  const { item, hasTwin, cut, isStep = false, write, isDone, wrong, tick } = props;
  const { name, count, material } = item;
  const done = isStep ? 'done' : 'cut';
  const all = cut >= count;
  const called = hasTwin ? [name, material, sizeOf(item, write)].filter(Boolean).join(', ') : name;
  const pieces = Array.from({ length: count }, (_, piece) => ({ item, piece }));
  const next = pieces.find((piece) => !isDone(piece));
  const last = pieces.findLast(isDone);
  return (
    <li className="bench-line bench-part" data-done={all}>
      <div>
        <span className="bench-name">
          {name} {isStep ? null : <span className="quiet">{material}</span>}
          {allCutAtOther(wrong, item).map((says) => (
            <Other key={says} says={says} />
          ))}
        </span>
        {isStep ? null : <Size item={item} write={write} />}
      </div>
      <p className="bench-count">
        {cut} of {count}
      </p>
      {count <= MOST_BOXES ? (
        <p className="bench-boxes">
          {pieces.map((piece) => (
            <label key={piece.piece} className="bench-box">
              <input
                type="checkbox"
                checked={isDone(piece)}
                aria-label={`${called}, ${whichSaid(item, piece.piece) || `1 of 1`}, ${done}`}
                onChange={(event) => tick(piece, event.target.checked)}
              />
            </label>
          ))}
        </p>
      ) : (
        <p className="bench-keys">
          <button
            type="button"
            className="button"
            aria-label={`One less of ${called}`}
            disabled={last === undefined}
            onClick={() => last && tick(last, false)}
          >
            −
          </button>
          <button
            type="button"
            className="button button-main"
            aria-label={`One more of ${called} ${done}`}
            disabled={next === undefined}
            onClick={() => next && tick(next, true)}
          >
            {capital(done)}
          </button>
        </p>
      )}
    </li>
  );
}

/** That it is cut already, at another size. */
function Other({ says }: { readonly says: string | undefined }) {
  return says === undefined ? null : <span className="bench-other">▲ {says}</span>;
}

type Write = Ticking['write'];

const sizeOf = ({ thickness, width, length }: CutItem, write: Write): string =>
  `${write(thickness)} × ${write(width)} × ${write(length)}`;

function Size({ item, write }: { readonly item: CutItem; readonly write: Write }) {
  return (
    <span className="bench-size">
      {write(item.thickness)} × {write(item.width)} × <b>{write(item.length)}</b>
    </span>
  );
}

import { bookFormat, type CutItem, type ShopPlan } from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';
import type { Block } from '../paper/blocks.tsx';
import { leftOutAgain } from './left-out.tsx';
import { sentenceBlock, titleBlock } from './pieces.tsx';

/** A label's size, mm: three fit side by side on A4 and on Letter, four where the page lies on its side. */
const LABEL = { width: 60, height: 26 } as const;

/** Teeth of the edge that a strip of tape is torn off at, mm. */
const TEETH = { high: 2, deep: 0.9 } as const;

/** Labels of one print at the most; the sheet says how many are left out. */
const MOST_LABELS = 600;

/**
 * A label for each piece, at true size, to cut out and stick on its face side: strips as of tape that a maker writes
 * on, with the mark of the face and of the edge that all is measured from.
 * @param width of the page's field, mm
 */
export function labelSheet(
  book: OpenWorkbook,
  { list, unread, plan }: Pick<ShopPlan, 'list' | 'unread' | 'plan'>,
  width: number,
): Block[] {
  const across = Math.max(1, Math.floor(width / LABEL.width));
  const write = bookFormat(book);
  const unit = book.units === 'us' ? 'in' : 'mm';
  const from = boardsOf(plan);
  const labels = list.items.flatMap((item) =>
    Array.from({ length: Math.min(item.count, MOST_LABELS) }, (_, i) => ({
      item,
      number: i + 1,
      from: from.get(item)?.[i],
    })),
  );
  const rows = [];
  for (let at = 0; at < Math.min(labels.length, MOST_LABELS); at += across) {
    rows.push(labels.slice(at, at + across));
  }
  const about = (
    <>
      One for each piece: stick it on the face side, the tail of its mark towards the face edge.
      Print at full size: this bar is {unit === 'in' ? '4 in' : '100 mm'} long.
      <span
        className="check-bar"
        style={{ inlineSize: unit === 'in' ? '4in' : '100mm' }}
        aria-hidden="true"
      />
    </>
  );
  const pieces = list.items.reduce((sum, { count }) => sum + count, 0);
  return [
    titleBlock('labels', 'Part labels', about),
    ...leftOutAgain('labels', 'Left out: no labels for these', book, unread),
    ...(pieces > MOST_LABELS
      ? [
          sentenceBlock(
            'labels left out',
            `These are the first ${MOST_LABELS} of ${pieces} pieces; the others get none.`,
            true,
          ),
        ]
      : []),
    ...rows.map((row, i) => ({
      key: `labels ${i}`,
      node: (
        <div className="label-row">
          <Tear />
          {row.map(({ item, number, from }) => (
            <Label
              key={`${item.name} ${number}`}
              item={item}
              number={number}
              from={from}
              size={`${write(item.thickness)} × ${write(item.width)} × ${write(item.length)} ${unit}`}
            />
          ))}
        </div>
      ),
    })),
  ];
}

/** Which board or sheet each piece of a line comes out of, in the order in which they are cut. */
function boardsOf(plan: ShopPlan['plan']): ReadonlyMap<CutItem, readonly string[]> {
  const found = new Map<CutItem, string[]>();
  const note = (item: CutItem, says: string): void => {
    found.set(item, [...(found.get(item) ?? []), says]);
  };
  for (const { boards, panels } of plan?.groups ?? []) {
    for (const [b, { pieces }] of boards.entries()) {
      for (const { item, strips } of pieces) {
        for (let strip = 0; strip < strips; strip += 1) {
          note(item, `board ${b + 1} of ${boards.length}`);
        }
      }
    }
    for (const [p, { pieces }] of panels.entries()) {
      for (const { item } of pieces) note(item, `sheet ${p + 1} of ${panels.length}`);
    }
  }
  return found;
}

interface LabelProps {
  readonly item: CutItem;
  readonly number: number;
  readonly size: string;
  readonly from: string | undefined;
}

function Label({ item, number, size, from }: LabelProps) {
  const place = item.which?.[number - 1];
  return (
    <div
      className="part-label"
      style={{ inlineSize: `${LABEL.width}mm`, blockSize: `${LABEL.height}mm` }}
    >
      <strong>{place === undefined ? item.name : `${item.name}, ${place}`}</strong>
      {item.count === 1 ? null : (
        <span className="label-number">
          {number} of {item.count}
        </span>
      )}
      <span className="label-size">{size}</span>
      <span className="label-from">
        {item.material}
        {from === undefined ? null : <span>from {from}</span>}
      </span>
      <FaceMark />
      <Tear />
    </div>
  );
}

/** The mark of a face side, a loop with its tail to the face edge, and that edge's own below it, as drawn by hand. */
function FaceMark() {
  return (
    <svg className="label-mark" viewBox="0 0 9 11" aria-hidden="true">
      <path d="M1.2 4.4C2.2 1.6 5.6 0.2 6.6 1.8C7.6 3.4 4.6 5.4 3.4 4.4C2.4 3.4 5.2 3 6 5.4C6.6 7.2 5.8 9 4.8 11" />
      <path d="M3.2 8.2L4.9 10.8L7.4 8.6" />
    </svg>
  );
}

/** The toothed edge of a strip that was torn off. */
function Tear() {
  const { high, deep } = TEETH;
  const teeth = Math.round(LABEL.height / high);
  return (
    <svg
      className="label-tear"
      viewBox={`${-deep} 0 ${2 * deep} ${LABEL.height}`}
      style={{ inlineSize: `${2 * deep}mm`, blockSize: `${LABEL.height}mm` }}
      aria-hidden="true"
    >
      <path
        d={`M0 0${`l${deep} ${high / 4}l${-2 * deep} ${high / 2}l${deep} ${high / 4}`.repeat(teeth)}`}
      />
    </svg>
  );
}

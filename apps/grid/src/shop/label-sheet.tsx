import { bookFormat, type CutItem, type ShopPlan } from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';
import type { Block } from '../paper/blocks.tsx';
import { leftOutAgain } from './left-out.tsx';
import { sentenceBlock, titleBlock } from './pieces.tsx';

/** A label's size, mm: three fit side by side on A4 and on Letter, four where the page lies on its side. */
const LABEL = { width: 60, height: 26 } as const;

/** Labels of one print at the most; the sheet says how many are left out. */
const MOST_LABELS = 600;

/**
 * A label for each piece, at true size, to cut out and tape on.
 * @param width of the page's field, mm
 */
export function labelSheet(
  book: OpenWorkbook,
  { list, unread }: Pick<ShopPlan, 'list' | 'unread'>,
  width: number,
): Block[] {
  const across = Math.max(1, Math.floor(width / LABEL.width));
  const write = bookFormat(book);
  const unit = book.units === 'us' ? 'in' : 'mm';
  const labels = list.items.flatMap((item) =>
    Array.from({ length: Math.min(item.count, MOST_LABELS) }, (_, i) => ({ item, number: i + 1 })),
  );
  const rows = [];
  for (let at = 0; at < Math.min(labels.length, MOST_LABELS); at += across) {
    rows.push(labels.slice(at, at + across));
  }
  const about = (
    <>
      One for each piece. Print at full size: this bar is {unit === 'in' ? '4 in' : '100 mm'} long.
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
          {row.map(({ item, number }) => (
            <Label
              key={`${item.name} ${number}`}
              item={item}
              number={number}
              size={`${write(item.thickness)} × ${write(item.width)} × ${write(item.length)} ${unit}`}
            />
          ))}
        </div>
      ),
    })),
  ];
}

interface LabelProps {
  readonly item: CutItem;
  readonly number: number;
  readonly size: string;
}

function Label({ item, number, size }: LabelProps) {
  return (
    <div
      className="part-label"
      style={{ inlineSize: `${LABEL.width}mm`, blockSize: `${LABEL.height}mm` }}
    >
      <strong>{item.name}</strong>
      <span>{item.count === 1 ? '' : `${number} of ${item.count}`}</span>
      <span>{size}</span>
      <span>{item.material}</span>
    </div>
  );
}

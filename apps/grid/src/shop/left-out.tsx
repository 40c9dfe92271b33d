import type { LeftOut } from '@kerfbook/drawing';
import type { At, OpenWorkbook } from '@kerfbook/workbook';
import { createContext, useContext } from 'react';
import { GoTo } from '../page/go-to.tsx';
import type { Block } from '../paper/blocks.tsx';

/** So many stand in one frame: a frame does not go on over the page's end. */
const A_FRAME = 8;

/**
 * The same on a sheet that need not repeat the cut list: the first of them, and where the others are named. Nobody
 * leafs through them before each sheet of a long list.
 */
export function leftOutAgain(
  key: string,
  heading: string,
  book: OpenWorkbook,
  left: readonly LeftOut[],
): Block[] {
  const more = left.length - A_FRAME;
  if (more <= 1) return leftOutBlocks(key, heading, book, left);
  const some = left.slice(0, A_FRAME);
  return [
    {
      key: `${key} left out`,
      node: (
        <LeftOutBox
          heading={heading}
          book={book}
          left={some}
          more={`And ${more} more; the cut list names each.`}
        />
      ),
    },
  ];
}

/** What a page has to do without, framed at its top: each thing named, with its cell and the reason. */
export function leftOutBlocks(
  key: string,
  heading: string,
  book: OpenWorkbook,
  left: readonly LeftOut[],
): Block[] {
  const blocks: Block[] = [];
  for (let from = 0; from < left.length; from += A_FRAME) {
    const some = left.slice(from, from + A_FRAME);
    blocks.push({
      key: `${key} left out ${from}`,
      node: <LeftOutBox heading={heading} book={book} left={some} />,
    });
  }
  return blocks;
}

/** How the cell of a thing left out is reached from a page; on paper nothing is pressed. */
export const ToCell = createContext<((at: At) => void) | undefined>(undefined);

interface LeftOutBoxProps {
  readonly heading: string;
  readonly book: OpenWorkbook;
  readonly left: readonly LeftOut[];
  /** What is said of those that are not named here. */
  readonly more?: string;
}

/** The same on the screen. */
export function LeftOutBox({ heading, book, left, more }: LeftOutBoxProps) {
  const onGo = useContext(ToCell);
  if (left.length === 0) return null;
  return (
    <div className="shop-left-out">
      <p>
        <strong>▲ {heading}</strong>
      </p>
      <ul>
        {left.map(({ at, what, says }) => (
          <li key={`${at.sheet} ${at.row} ${at.column} ${what}`}>
            <strong>{what}</strong> ({book.sheet(at.sheet)?.name}!{book.addressOf(at)}): {says}
            {onGo === undefined ? null : (
              <span className="left-out-go">
                {' '}
                <GoTo book={book} at={at} onGo={onGo} />
              </span>
            )}
          </li>
        ))}
        {more === undefined ? null : <li>{more}</li>}
      </ul>
    </div>
  );
}

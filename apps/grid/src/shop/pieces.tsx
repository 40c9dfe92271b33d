import type { ReactNode } from 'react';
import { setByPoint } from '../paper/after-point.tsx';
import type { Block, TableShape } from '../paper/blocks.tsx';

/** The title of a shop sheet; a new page begins with it. */
export function titleBlock(key: string, title: string, about: ReactNode): Block {
  return {
    key,
    section: true,
    keep: true,
    node: (
      <header className="shop-title">
        <h2>{title}</h2>
        <p>{about}</p>
      </header>
    ),
  };
}

/** Cautions where they belong: framed, with a sign, black ink only. */
export function cautionBlock(key: string, sentences: readonly string[]): Block {
  return {
    key,
    // It is read before what it warns of, not alone at a page's foot; unless that page were nearly empty without it.
    together: true,
    node: (
      <div className="shop-caution">
        <span aria-hidden="true">▲</span>
        <ul>
          {sentences.map((says) => (
            <li key={says}>{says}</li>
          ))}
        </ul>
      </div>
    ),
  };
}

export function headingBlock(key: string, says: string): Block {
  return { key, keep: true, node: <h3>{says}</h3> };
}

export function sentenceBlock(key: string, says: ReactNode, keep = false): Block {
  return { key, node: <p className="shop-says">{says}</p>, ...(keep ? { keep } : {}) };
}

/** So many boxes stand in one place; what is more is counted on the bench list. */
const MOST_BOXES = 12;

/** Boxes to tick off, one a piece. */
export function Boxes({ count }: { readonly count: number }) {
  return (
    <span className="check-boxes">
      {Array.from({ length: Math.min(count, MOST_BOXES) }, (_, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: boxes are alike.
        <span key={i} className="check-box" />
      ))}
      {count > MOST_BOXES ? ` and ${count - MOST_BOXES} more` : ''}
    </span>
  );
}

/** `what  how much` in two columns. */
export function factsBlock(
  key: string,
  facts: readonly (readonly [says: string, shown: string])[],
): Block[] {
  if (facts.length === 0) return [];
  const node = (
    <dl className="shop-facts">
      {facts.map(([says, shown]) => (
        <div key={says}>
          <dt>{says}</dt>
          <dd>{shown}</dd>
        </div>
      ))}
    </dl>
  );
  return [{ key, node }];
}

/** The same under a heading of its own, and what is to be known of them; nothing where there are none. */
export const factsUnder = (
  key: string,
  heading: string,
  facts: readonly (readonly [says: string, shown: string])[],
  says?: string,
): Block[] =>
  facts.length === 0
    ? []
    : [
        headingBlock(`${key} heading`, heading),
        ...(says === undefined ? [] : [sentenceBlock(`${key} says`, says, true)]),
        ...factsBlock(key, facts),
      ];

interface Column {
  readonly heads: string;
  /** Share of the width, %. */
  readonly share: number;
  readonly end?: boolean;
}

/** Boxes stand up to six in a line, %: of five the last stood alone under the others. */
const boxShare = (box: true | readonly number[]): number =>
  box === true || box.every((count) => count <= 1)
    ? 7
    : Math.max(14, 4 + 3.2 * Math.min(6, Math.max(0, ...box)));

/** Rows of one part that stay on one page: more of them would leave the page before too empty. */
const MOST_TOGETHER = 12;

/** A table of what is done to one part or piece: its rows stay on one page as far as that may be. */
export const wholeTable = (...of: Parameters<typeof tableBlocks>): Block[] => {
  const rows = tableBlocks(...of);
  if (rows.length > MOST_TOGETHER) return rows;
  return rows.map((row, i) => (i < rows.length - 1 ? { ...row, together: true } : row));
};

/** A table of a shop sheet; `box`: each row begins with a box to check off, or with as many as it says. */
export function tableBlocks(
  id: string,
  says: string,
  columns: readonly Column[],
  rows: readonly (readonly ReactNode[])[],
  box: boolean | readonly number[] = false,
): Block[] {
  const hasBox = box !== false;
  const cells = columns.map(({ end }, column) => {
    const own = rows.map((row) => row[column]);
    return end === true ? setByPoint(own) : own;
  });
  const table: TableShape = {
    id,
    says,
    className: 'shop-table',
    columns: (
      <colgroup>
        {hasBox ? <col className="for-paper" style={{ width: `${boxShare(box)}%` }} /> : null}
        {columns.map(({ heads, share }) => (
          <col key={heads} style={{ width: `${share}%` }} />
        ))}
      </colgroup>
    ),
    head: (
      <tr>
        {hasBox ? (
          <th scope="col" className="for-paper">
            Done
          </th>
        ) : null}
        {columns.map(({ heads, end }) => (
          <th key={heads} scope="col" data-align={end === true ? 'end' : undefined}>
            {heads}
          </th>
        ))}
      </tr>
    ),
  };
  return rows.map((_, i) => ({
    key: `${id} ${i}`,
    table,
    // No head is left with a single row at a page's foot, and no last row alone at a page's top.
    ...(rows.length > 1 && (i === 0 || i === rows.length - 2) ? { keep: true } : {}),
    node: (
      <tr>
        {hasBox ? (
          <td className="for-paper">
            <Boxes count={box === true ? 1 : (box[i] ?? 0)} />
          </td>
        ) : null}
        {columns.map(({ heads, end }, column) => (
          <td key={heads} data-align={end === true ? 'end' : undefined}>
            {cells[column]?.[i]}
          </td>
        ))}
      </tr>
    ),
  }));
}

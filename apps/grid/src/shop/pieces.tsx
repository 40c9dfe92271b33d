import type { ReactNode } from 'react';
import type { Block, TableShape } from '../paper/blocks.tsx';

/** The title of a shop sheet; a new page begins with it. */
export function titleBlock(key: string, title: string, about: ReactNode): Block {
  return {
    key,
    fresh: true,
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

export function sentenceBlock(key: string, says: ReactNode): Block {
  return { key, node: <p className="shop-says">{says}</p> };
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

interface Column {
  readonly heads: string;
  /** Share of the width, %. */
  readonly share: number;
  readonly end?: boolean;
}

/** A table of a shop sheet; `box`: each row begins with a box to check off. */
export function tableBlocks(
  id: string,
  says: string,
  columns: readonly Column[],
  rows: readonly (readonly ReactNode[])[],
  box = false,
): Block[] {
  const table: TableShape = {
    id,
    says,
    className: 'shop-table',
    columns: (
      <colgroup>
        {box ? <col style={{ width: '7%' }} /> : null}
        {columns.map(({ heads, share }) => (
          <col key={heads} style={{ width: `${share}%` }} />
        ))}
      </colgroup>
    ),
    head: (
      <tr>
        {box ? <th scope="col">Done</th> : null}
        {columns.map(({ heads, end }) => (
          <th key={heads} scope="col" data-align={end === true ? 'end' : undefined}>
            {heads}
          </th>
        ))}
      </tr>
    ),
  };
  return rows.map((row, i) => ({
    key: `${id} ${i}`,
    table,
    node: (
      <tr>
        {box ? (
          <td>
            <span className="check-box" />
          </td>
        ) : null}
        {columns.map(({ heads, end }, column) => (
          <td key={heads} data-align={end === true ? 'end' : undefined}>
            {row[column]}
          </td>
        ))}
      </tr>
    ),
  }));
}

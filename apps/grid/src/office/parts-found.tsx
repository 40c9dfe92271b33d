import type { Shop } from '@kerfbook/interchange';
import { kerfTrouble, readList } from '@kerfbook/workbook/from-text';
import { useId } from 'react';
import { asRead } from '../session/decimal-mark.ts';
import type { FileSeen } from './asked.ts';

/** What was typed about what parts are cut from. */
export interface ShopTyped {
  readonly kerf: string;
  /** Boards as a maker writes them, a line each. */
  readonly boards: string;
}

export const NO_SHOP: ShopTyped = { kerf: '', boards: '' };

/** What of that can be read. */
export interface ShopRead {
  readonly shop: Shop;
  readonly wrong: boolean;
  readonly kerfSays?: string;
  readonly boardsSay: string;
  readonly isMissed: boolean;
}

/** Reads what was typed; a blank field is no mistake. */
export function shopOf(
  { kerf, boards }: ShopTyped,
  units: 'us' | 'metric',
  woods: readonly string[],
): ShopRead {
  const entry = asRead(kerf, () => ({ quantity: 'length' }));
  const kerfSays = kerfTrouble(entry, units);
  const list = readList(boards, { kind: 'stock', units, money: '$', woods });
  const missed = list.unread.filter(({ expected }) => !expected);
  const rows = list.rows.length;
  const counted = rows === 1 ? '1 row of boards read' : `${rows} rows of boards read`;
  const lines = missed.length === 1 ? '1 line not read' : `${missed.length} lines not read`;
  const doubts = list.rows.flatMap(({ says }) => says);
  return {
    shop: { kerf: entry, boards: list.rows.map(({ texts }) => texts) },
    wrong: kerfSays !== undefined,
    ...(kerfSays === undefined ? {} : { kerfSays }),
    boardsSay:
      boards.trim() === ''
        ? 'Without boards and a kerf there is a drawing and a cut list, and no cutting plan yet.'
        : [
            missed.length === 0
              ? `${counted}.`
              : `${counted}, ${lines}: ${missed[0]?.text.trim() ?? ''}`,
            ...doubts,
          ].join(' '),
    isMissed: missed.length > 0,
  };
}

interface PartsFoundProps {
  readonly lists: FileSeen['parts'];
  readonly chosen: number | undefined;
  readonly units: 'us' | 'metric';
  readonly typed: ShopTyped;
  readonly read: ShopRead;
  readonly onChoose: (list: number | undefined) => void;
  readonly onType: (typed: ShopTyped) => void;
}

/** A list of parts that was found, and what its parts are cut from. */
export function PartsFound(props: PartsFoundProps) {
  const { lists, chosen, units, typed, read, onChoose, onType } = props;
  const ids = useId();
  if (lists.length === 0) return null;
  const list = chosen === undefined ? undefined : lists[chosen];
  return (
    <section className="take-parts">
      <h3>A list of parts</h3>
      {lists.map((one, at) => (
        <label key={one.says} className="take-list">
          <input
            type="checkbox"
            checked={chosen === at}
            onChange={(event) => onChoose(event.target.checked ? at : undefined)}
          />
          <span>
            {one.says}{' '}
            <strong>
              {one.count === 1
                ? 'Make it the parts table: 1 part.'
                : `Make it the parts table: ${one.count} parts.`}
            </strong>
          </span>
        </label>
      ))}
      {list === undefined ? null : (
        <>
          <div className="take-scroll">
            <table>
              <thead>
                <tr>
                  {list.heads.map(({ head }) => (
                    <th key={head} scope="col">
                      {head}
                    </th>
                  ))}
                </tr>
              </thead>
              <tbody>
                {list.first.map((line, row) => (
                  // biome-ignore lint/suspicious/noArrayIndexKey: rows of one reading never change places
                  <tr key={row}>
                    {line.map((text, at) => (
                      <td key={list.heads[at]?.head ?? at}>{text}</td>
                    ))}
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
          {list.count > list.first.length ? (
            <p className="quiet">And {list.count - list.first.length} more.</p>
          ) : null}
          <div className="take-shop">
            <div>
              <label htmlFor={`${ids}kerf`}>Saw kerf</label>
              <input
                id={`${ids}kerf`}
                className="field"
                size={8}
                value={typed.kerf}
                autoComplete="off"
                placeholder={units === 'us' ? '1/8' : '3.2'}
                aria-invalid={read.kerfSays !== undefined}
                aria-describedby={`${ids}kerf-says`}
                onChange={(event) => onType({ ...typed, kerf: event.target.value })}
              />
              <p
                id={`${ids}kerf-says`}
                className={read.kerfSays === undefined ? 'quiet' : 'complaint'}
              >
                {read.kerfSays ?? 'What your blade takes away with each cut.'}
              </p>
            </div>
            <div>
              <label htmlFor={`${ids}boards`}>
                Boards to cut them from, a line each
                {list.woods.length === 0 ? '' : ` (${list.woods.join(', ')})`}
              </label>
              <textarea
                id={`${ids}boards`}
                className="field"
                rows={3}
                spellCheck={false}
                value={typed.boards}
                placeholder={
                  units === 'us'
                    ? '5 @ 8/4 x 8" x 10\' white oak, $9.50/bf'
                    : '5 @ 52 x 200 x 3000 white oak, $90 each'
                }
                aria-describedby={`${ids}boards-say`}
                onChange={(event) => onType({ ...typed, boards: event.target.value })}
              />
              <p
                id={`${ids}boards-say`}
                role="status"
                className={read.isMissed ? 'complaint' : 'quiet'}
              >
                {read.boardsSay}
              </p>
            </div>
          </div>
        </>
      )}
    </section>
  );
}

import { SHOP_COLUMNS } from '@kerfbook/workbook';
import type { ListKind, ListRow, RowTexts } from '@kerfbook/workbook/from-text';
import { type KeyboardEvent, useId, useState } from 'react';
import { StateIcon } from '../beside/state-icon.tsx';

/** What was changed of what was read: entries by {@link keyOf}, and rows that are left out. */
export type Changes = ReadonlyMap<string, string | boolean>;

/** A row as it would be added. */
export interface Shown {
  readonly row: ListRow;
  readonly texts: RowTexts;
  /** Heads whose entries a maker typed here. */
  readonly typed: ReadonlySet<string>;
  /** What cannot be read of them, by heads. */
  readonly complaints: ReadonlyMap<string, string>;
  readonly isTaken: boolean;
}

/** A change holds for its line as it is written: another line in its place is read anew. */
export const keyOf = ({ line, text }: ListRow, head: string): string => `${line} ${head} ${text}`;

/** Rows that are drawn at first, and more at each press. */
const DRAWN = 100;

const HEADS: Readonly<Record<ListKind, readonly string[]>> = {
  parts: ['part', 'count', 'thickness', 'width', 'length', 'material'],
  stock: ['stock', 'at hand', 'thickness', 'width', 'length', 'material', 'price'],
};

interface ReadRowsProps {
  readonly rows: readonly Shown[];
  readonly kind: ListKind;
  readonly onChange: (key: string, value: string | boolean) => void;
}

/** What was read, a field for each cell, so that it can be put right before it is added. */
export function ReadRows({ rows, kind, onChange }: ReadRowsProps) {
  const [drawn, setDrawn] = useState(DRAWN);
  const more = SHOP_COLUMNS[kind]
    .map(({ heads }) => heads)
    .filter((head) => !HEADS[kind].includes(head));
  const heads = [
    ...HEADS[kind],
    ...more.filter((head) => rows.some(({ texts }) => texts[head] !== undefined)),
  ];
  const rest = rows.length - drawn;
  return (
    <>
      <div className="from-text-scroll">
        <table className="from-text-table">
          <thead>
            <tr>
              <th scope="col">add</th>
              {heads.map((head) => (
                <th key={head} scope="col">
                  {head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody onKeyDown={goDown}>
            {rows.slice(0, drawn).map((shown) => (
              <Row key={keyOf(shown.row, '')} shown={shown} heads={heads} onChange={onChange} />
            ))}
          </tbody>
        </table>
      </div>
      {rest > 0 ? (
        <p className="actions">
          <button type="button" className="button" onClick={() => setDrawn(drawn + DRAWN)}>
            Show {Math.min(DRAWN, rest)} more of {rest}
          </button>
        </p>
      ) : null}
    </>
  );
}

interface RowProps {
  readonly shown: Shown;
  readonly heads: readonly string[];
  readonly onChange: ReadRowsProps['onChange'];
}

function Row({ shown, heads, onChange }: RowProps) {
  const { row, texts, complaints, isTaken } = shown;
  const says = useId();
  const name = texts.part ?? texts.stock ?? '';
  const sentences = [...complaints.values(), ...row.says];
  const state = complaints.size > 0 ? 'stop' : row.sure ? undefined : 'care';
  return (
    <>
      <tr data-line={row.line} data-taken={isTaken} data-sure={row.sure}>
        <td>
          <label className="from-text-add">
            <input
              type="checkbox"
              checked={isTaken}
              aria-label={`Add ${name}, line ${row.line}`}
              onChange={(event) => onChange(keyOf(row, ''), event.target.checked)}
            />
          </label>
        </td>
        {heads.map((head) => (
          <td key={head} data-head={head}>
            <input
              type="text"
              className="field"
              value={texts[head] ?? ''}
              disabled={!isTaken}
              aria-label={`${head} of ${name}, line ${row.line}`}
              aria-invalid={complaints.has(head)}
              aria-describedby={sentences.length === 0 ? undefined : says}
              autoComplete="off"
              onChange={(event) => onChange(keyOf(row, head), event.target.value)}
            />
          </td>
        ))}
      </tr>
      {sentences.length === 0 ? null : (
        <tr className="from-text-says" data-taken={isTaken}>
          <td />
          <td colSpan={heads.length}>
            <span id={says}>
              {state === undefined ? null : (
                <StateIcon
                  state={state}
                  label={state === 'care' ? 'To look at:' : 'Cannot be read:'}
                />
              )}{' '}
              {sentences.join(' ')}
            </span>
          </td>
        </tr>
      )}
    </>
  );
}

/** Enter goes to the field below, as in a sheet, and adds nothing yet. */
function goDown(event: KeyboardEvent<HTMLElement>): void {
  const field = event.target;
  if (event.key !== 'Enter' || !(field instanceof HTMLInputElement)) return;
  event.preventDefault();
  const head = field.closest('td')?.dataset.head;
  const fields = [
    ...event.currentTarget.querySelectorAll<HTMLInputElement>(
      head === undefined ? 'input[type="checkbox"]' : `td[data-head="${head}"] > input`,
    ),
  ];
  const below = fields[fields.indexOf(field) + (event.shiftKey ? -1 : 1)];
  below?.focus();
  if (below?.type === 'text') below.select();
}

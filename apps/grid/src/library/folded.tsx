import { type At, LISTED_KINDS, type Listed } from '@kerfbook/workbook';
import { useState } from 'react';
import { byKind, KIND_HEADS } from './kinds.ts';

/** So many lines stand open from the start, and so many are put on the page at once. */
const FEW = 8;
const AT_ONCE = 100;

interface FoldedProps {
  readonly all: readonly Listed[];
  /** What each of both is called: `Then` and `Now`. */
  readonly before: string;
  readonly after: string;
  /** Takes the maker to a cell of the workbook at hand; left out where it is another one. */
  readonly onGo?: (at: At) => void;
}

/** What differs, folded by kind: few stand open, many are opened. */
export function Folded({ all, ...rest }: FoldedProps) {
  return (
    <div className="differs">
      {byKind(all, LISTED_KINDS).map(([kind, some]) => (
        <Fold key={kind} head={KIND_HEADS[kind]} some={some} open={all.length <= FEW} {...rest} />
      ))}
    </div>
  );
}

interface FoldProps extends Omit<FoldedProps, 'all'> {
  readonly head: string;
  readonly some: readonly Listed[];
  readonly open: boolean;
}

/** Lines of one kind under their heading; they are made once it is opened. */
export function Fold({ head, some, open: atFirst, before, after, onGo }: FoldProps) {
  const [open, setOpen] = useState(atFirst);
  const [many, setMany] = useState(AT_ONCE);
  return (
    <details
      className="differs-fold"
      open={open}
      onToggle={({ currentTarget }) => setOpen(currentTarget.open)}
    >
      <summary>
        {head} <span className="quiet">({some.length})</span>
      </summary>
      {open ? (
        <>
          <table className="differs-table">
            <thead>
              <tr>
                <th scope="col">Where</th>
                <th scope="col">{before}</th>
                <th scope="col">{after}</th>
              </tr>
            </thead>
            <tbody>
              {some.slice(0, many).map((line, i) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: a list that is made anew as a whole
                <Line key={i} line={line} onGo={onGo} />
              ))}
            </tbody>
          </table>
          {some.length > many ? (
            <button
              type="button"
              className="button"
              aria-label={`Show more: ${head}`}
              onClick={() => setMany(many + AT_ONCE)}
            >
              Show {Math.min(AT_ONCE, some.length - many)} more of {some.length - many}
            </button>
          ) : null}
        </>
      ) : null}
    </details>
  );
}

interface LineProps {
  readonly line: Listed;
  readonly onGo: ((at: At) => void) | undefined;
}

function Line({ line: { sheet, what, before, after, at, cells }, onGo }: LineProps) {
  return (
    <tr>
      <th scope="row">
        {onGo !== undefined && at !== undefined && cells !== undefined ? (
          <button
            type="button"
            className="button-plain"
            aria-label={`Go to ${what}${sheet === '' ? '' : ` on ${sheet}`}`}
            onClick={() => onGo(at)}
          >
            {what}
          </button>
        ) : (
          what
        )}{' '}
        {sheet === '' || sheet === what ? null : <span className="quiet">{sheet}</span>}
      </th>
      <Side text={before} />
      <Side text={after} />
    </tr>
  );
}

/** As it is in one of both; formulas are long, and break anywhere. */
const Side = ({ text }: { readonly text: string }) => (
  <td>{text === '' ? <span className="quiet">nothing</span> : text}</td>
);

import { useId, useState } from 'react';
import CheckForm from '../checks/check-form.tsx';
import { describe } from '../commands/commands.ts';
import { checksOf, linesInWords, removal, usersOf } from '../commands/structure.ts';
import { setWidths, WIDTHS } from '../commands/widths.ts';
import { Dialog } from '../library/dialog.tsx';
import { type Area, columnsOf, rowsOf } from '../session/area.ts';
import { USUAL_WIDTH } from '../session/on-screen.ts';
import type { Session } from '../session/session.ts';
import type { Question } from '../session/types.ts';
import { Form } from './form.tsx';
import { Format } from './format.tsx';

interface AskedProps {
  readonly session: Session;
  readonly what: Question;
  readonly onClose: () => void;
}

/** The dialog behind a menu item. */
export default function Asked({ session, what, onClose }: AskedProps) {
  switch (what) {
    case 'name':
      return <NameCell session={session} onClose={onClose} />;
    case 'remark':
      return <Remark session={session} onClose={onClose} />;
    case 'format':
      return <Format session={session} onClose={onClose} />;
    case 'mark':
      return <CheckForm session={session} id={undefined} onClose={onClose} forSelected />;
    case 'width':
      return <Width session={session} onClose={onClose} />;
    case 'removeRows':
      return <Remove session={session} line="row" onClose={onClose} />;
    case 'removeColumns':
      return <Remove session={session} line="column" onClose={onClose} />;
  }
}

type PartProps = Omit<AskedProps, 'what'>;

/** Names the current cell, changes its name, or removes it (G37). */
function NameCell({ session, onClose }: PartProps) {
  const cell = session.current();
  const [name, setName] = useState(cell.name ?? '');
  const [says, setSays] = useState<string>();
  const field = useId();
  const wanted = name.trim();
  return (
    <Dialog title={`Name ${cell.address}`} onClose={onClose}>
      <Form
        does="Save name"
        onClose={onClose}
        onDo={() => {
          if (wanted === (cell.name ?? '')) {
            onClose();
            return;
          }
          const result = session.apply(
            cell.name !== undefined && wanted !== ''
              ? { do: 'renameName', from: cell.name, to: wanted }
              : { do: 'nameCell', at: session.at, name: wanted === '' ? null : wanted },
          );
          if (result.ok) onClose();
          else setSays(result.says);
        }}
      >
        <label htmlFor={field}>
          Name in formulas
          <input
            id={field}
            className="field"
            value={name}
            spellCheck={false}
            autoComplete="off"
            onChange={(event) => {
              setName(event.target.value);
              setSays(undefined);
            }}
          />
        </label>
        <p className="quiet">
          {cell.name === undefined
            ? 'Formulas on every sheet can use it.'
            : 'Formulas that use it follow. Leave it blank to remove the name.'}
        </p>
        {says === undefined ? null : (
          <p className="complaint" role="alert">
            {says}
          </p>
        )}
      </Form>
    </Dialog>
  );
}

function Remark({ session, onClose }: PartProps) {
  const cell = session.current();
  const [remark, setRemark] = useState(cell.remark ?? '');
  const field = useId();
  return (
    <Dialog title={`Remark on ${cell.name ?? cell.address}`} onClose={onClose}>
      <Form
        does="Save remark"
        onClose={onClose}
        onDo={() => {
          describe(session, { remark: remark.trim() === '' ? null : remark.trim() }, true);
          onClose();
        }}
      >
        <label htmlFor={field}>
          Shown with the cell
          <textarea
            id={field}
            className="field"
            rows={4}
            value={remark}
            onChange={(event) => setRemark(event.target.value)}
          />
        </label>
      </Form>
    </Dialog>
  );
}

/** Sets the width of the selected columns. */
function Width({ session, onClose }: PartProps) {
  const area = session.areas.at(-1);
  const { widths = [] } = session.book.sheet(session.at.sheet) ?? {};
  const [width, setWidth] = useState(String(widths[area?.left ?? 0] ?? USUAL_WIDTH));
  const [says, setSays] = useState<string>();
  const field = useId();
  if (area === undefined) return null;
  const { least, most } = WIDTHS;
  return (
    <Dialog title={`Width of ${linesInWords(area, 'column')}`} onClose={onClose}>
      <Form
        does="Set the width"
        onClose={onClose}
        onDo={() => {
          const wanted = Number(width);
          if (!(wanted >= least && wanted <= most)) {
            setSays(
              `A column is ${least} to ${most} px wide; ${width.trim() || 'nothing'} was typed.`,
            );
            return;
          }
          setWidths(session, area.left, area.right, () => Math.round(wanted));
          onClose();
        }}
      >
        <label htmlFor={field}>
          In pixels of the screen
          <input
            id={field}
            className="field"
            inputMode="numeric"
            value={width}
            autoComplete="off"
            onChange={(event) => {
              setWidth(event.target.value);
              setSays(undefined);
            }}
          />
        </label>
        <p className="quiet">
          A double click on the edge of a head fits a column to what is in it.
        </p>
        {says === undefined ? null : (
          <p className="complaint" role="alert">
            {says}
          </p>
        )}
      </Form>
    </Dialog>
  );
}

const NAMED = 12;

/** Deletes rows or columns, after saying who uses what would go (G40). */
function Remove({ session, line, onClose }: PartProps & { readonly line: 'row' | 'column' }) {
  const [found] = useState(() => {
    const going = removal(session, line);
    if (going === undefined) return undefined;
    const { sheet } = session.at;
    return {
      ...going,
      users: usersOf(session, sheet, going.area),
      checks: checksOf(session, sheet, going.area),
    };
  });
  if (found === undefined) {
    return (
      <Dialog title="Nothing to delete" onClose={onClose}>
        <p>These are past the edge of the sheet; there is nothing in them.</p>
      </Dialog>
    );
  }
  const { users, checks, area, edit } = found;
  const what = linesInWords(area, line);
  return (
    <Dialog title={`Delete ${what}?`} onClose={onClose}>
      <Form
        does={`Delete ${count(area, line)}`}
        removes
        onClose={onClose}
        onDo={() => {
          session.apply(edit);
          onClose();
        }}
      >
        {users.length === 0 ? (
          <p>No other formula uses what is in them.</p>
        ) : (
          <>
            <p>
              {users.length === 1 ? 'One cell uses' : `${users.length} cells use`} what is in them
              and may then show #REF!:
            </p>
            <ul>
              {users.slice(0, NAMED).map(({ address, label }) => (
                <li key={address}>
                  {label} <span className="quiet">{address}</span>
                </li>
              ))}
              {users.length > NAMED ? <li>and {users.length - NAMED} more</li> : null}
            </ul>
          </>
        )}
        {checks.length === 0 ? null : (
          <p>
            It is used by {checks.slice(0, NAMED).join('; ')}
            {checks.length > NAMED ? ` and ${checks.length - NAMED} more` : ''}, which may then say{' '}
            {'"can\'t tell"'}.
          </p>
        )}
        <p className="quiet">You can undo this.</p>
      </Form>
    </Dialog>
  );
}

/** `row 5`, `3 rows`: what a button deletes. */
function count(area: Area, line: 'row' | 'column'): string {
  const many = line === 'row' ? rowsOf(area) : columnsOf(area);
  return many === 1 ? linesInWords(area, line) : `${many} ${line}s`;
}

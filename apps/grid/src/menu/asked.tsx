import { DONE, notDone } from '@kerfbook/keeping';
import { useId, useState } from 'react';
import CheckForm from '../checks/check-form.tsx';
import { describe } from '../commands/commands.ts';
import { checksOf, linesInWords, removal, usersOf } from '../commands/structure.ts';
import { setWidths, WIDTHS } from '../commands/widths.ts';
import { Dialog } from '../library/dialog.tsx';
import { NameForm } from '../library/name-form.tsx';
import { later } from '../page/later.tsx';
import { type Area, columnsOf, rowsOf } from '../session/area.ts';
import { wordsFor } from '../session/called.ts';
import { USUAL_WIDTH } from '../session/on-screen.ts';
import type { Session } from '../session/session.ts';
import type { Question } from '../session/types.ts';
import { DeleteForm } from './delete-form.tsx';
import { Form } from './form.tsx';
import { Format } from './format.tsx';

/** Read and shown when it is first asked for. */
const ListDialog = later(() => import('../from-text/list-dialog.tsx'));

interface AskedProps {
  readonly session: Session;
  readonly what: Question;
  readonly onClose: () => void;
}

/** The dialog behind a menu item. */
export default function Asked({ session, what, onClose }: AskedProps) {
  switch (what) {
    case 'parts':
    case 'stock':
      return <ListDialog session={session} kind={what} onClose={onClose} />;
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
  return (
    <Dialog title={`Name ${cell.address}`} onClose={onClose}>
      <NameForm
        label="Name in formulas"
        start={cell.name ?? ''}
        does="Save name"
        onName={async (typed) => {
          const wanted = typed.trim();
          if (wanted === (cell.name ?? '')) {
            onClose();
            return DONE;
          }
          const result = session.apply(
            cell.name !== undefined && wanted !== ''
              ? { do: 'renameName', from: cell.name, to: wanted }
              : { do: 'nameCell', at: session.at, name: wanted === '' ? null : wanted },
          );
          if (!result.ok) return notDone(result.says);
          onClose();
          return DONE;
        }}
        onCancel={onClose}
      >
        <p className="quiet">
          {cell.name === undefined
            ? 'Formulas on every sheet can use it.'
            : 'Formulas that use it follow. Leave it blank to remove the name.'}
        </p>
      </NameForm>
    </Dialog>
  );
}

function Remark({ session, onClose }: PartProps) {
  const cell = session.current();
  const [remark, setRemark] = useState(cell.remark ?? '');
  const field = useId();
  return (
    <Dialog
      title={`Remark on ${wordsFor(session.at, session.book) ?? cell.name ?? cell.address}`}
      onClose={onClose}
    >
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
  if (area === undefined) return null;
  const { least, most } = WIDTHS;
  return (
    <Dialog title={`Width of ${linesInWords(area, 'column')}`} onClose={onClose}>
      <NameForm
        label="In screen pixels"
        start={String(widths[area.left] ?? USUAL_WIDTH)}
        does="Set the width"
        numeric
        onName={async (typed) => {
          const wanted = Number(typed);
          if (!(wanted >= least && wanted <= most)) {
            return notDone(
              `A column is ${least} to ${most} px wide; ${typed.trim() || 'nothing'} was typed.`,
            );
          }
          setWidths(session, area.left, area.right, () => Math.round(wanted));
          onClose();
          return DONE;
        }}
        onCancel={onClose}
      >
        <p className="quiet">
          A double click on the edge of a head fits a column to what is in it.
        </p>
      </NameForm>
    </Dialog>
  );
}

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
  return (
    <DeleteForm
      what={linesInWords(area, line)}
      does={`Delete ${count(area, line)}`}
      users={users}
      checks={checks}
      onDelete={() => session.apply(edit)}
      onClose={onClose}
    />
  );
}

/** `row 5`, `3 rows`: what a button deletes. */
function count(area: Area, line: 'row' | 'column'): string {
  const many = line === 'row' ? rowsOf(area) : columnsOf(area);
  return many === 1 ? linesInWords(area, line) : `${many} ${line}s`;
}

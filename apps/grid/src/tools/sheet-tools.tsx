import { Suspense, useState } from 'react';
import { afterGridModule } from '../page/after-grid.ts';
import { later } from '../page/later.tsx';
import type { Session } from '../session/session.ts';
import '../styles/menu.css';

interface FormProps {
  readonly session: Session;
  readonly onClose: () => void;
}

const forms = afterGridModule(() => import('./sheet-forms.tsx'));
const sheets = afterGridModule(() => import('../commands/sheets.ts'));
const ThisSheet = later<FormProps>(() =>
  forms().then(({ ThisSheet: form }) => ({ default: form })),
);
const NewTable = later<FormProps>(() => forms().then(({ NewTable: form }) => ({ default: form })));

/** Under the list of sheets: another sheet, and what can be done with the current one (G45). */
export function SheetTools({ session }: { readonly session: Session }) {
  const [open, setOpen] = useState(false);
  const [tables, setTables] = useState(false);
  if (!session.mayChange) return null;
  const add = (): void => {
    sheets().then(
      ({ addSheet }) => addSheet(session),
      () =>
        session.say(
          'A part of Kerfbook did not arrive. Look whether there is a network, then try again.',
        ),
    );
  };
  return (
    <>
      <p className="actions sheet-tools">
        <button type="button" className="button" onClick={() => add()}>
          New sheet
        </button>
        <button type="button" className="button" onClick={() => setOpen(session.mayShape())}>
          This sheet …
        </button>
        <button type="button" className="button" onClick={() => setTables(session.mayShape())}>
          New table …
        </button>
      </p>
      <Suspense fallback={null}>
        {open ? <ThisSheet session={session} onClose={() => setOpen(false)} /> : null}
        {tables ? <NewTable session={session} onClose={() => setTables(false)} /> : null}
      </Suspense>
    </>
  );
}

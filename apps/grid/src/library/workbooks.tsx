import { type Bookcase, type Done, type Listing, notDone, writeTrouble } from '@kerfbook/keeping';
import { type ApplyEdit, emptyTrash, listBooks, newBook } from '@kerfbook/keeping/shelf';
import { type ReactNode, useCallback, useEffect, useRef, useState } from 'react';
import { OwnRow, Question, type RowTools, TemplateRow, TrashRow } from './book-rows.tsx';
import { Dialog } from './dialog.tsx';
import { NameForm } from './name-form.tsx';
import { useBookcase } from './use-bookcase.ts';

interface WorkbooksProps {
  readonly bookcase: Bookcase;
  readonly apply: ApplyEdit;
  readonly onSaveAs: () => void;
  readonly onFiles: (files: readonly File[]) => void;
  /** Another workbook is open: closes the dialog and goes on in that. */
  readonly onOpened: () => void;
  readonly onClose: () => void;
  /** The list comes by itself, since a workbook could not be opened. */
  readonly unasked: boolean;
}

/** Every workbook on this device: what ships, the maker's own, and the trash. */
export default function Workbooks(props: WorkbooksProps) {
  const { bookcase, apply, onSaveAs, onFiles, onOpened, onClose, unasked } = props;
  useBookcase(bookcase);
  const [listing, setListing] = useState<Listing>();
  const [says, setSays] = useState<string>();
  const [beginning, setBeginning] = useState(false);

  const refresh = useCallback(async () => {
    try {
      await bookcase.fold();
      setListing(await listBooks(bookcase));
    } catch (error) {
      setSays(`The list could not be read: ${writeTrouble(error)}`);
    }
  }, [bookcase]);
  useEffect(() => void refresh(), [refresh]);

  const run = async (action: () => Promise<Done>): Promise<Done> => {
    const done = await action().catch((error: unknown) => notDone(writeTrouble(error)));
    setSays(done.ok ? undefined : done.says);
    await refresh();
    return done;
  };
  const open = (id: string) => {
    void run(() => bookcase.open(id)).then((done) => {
      if (done.ok) onOpened();
    });
  };
  const beside = listing?.beside ?? new Map();
  const tools: RowTools = { bookcase, apply, run, open, opened: onOpened, beside, unasked };

  return (
    <Dialog title="Workbooks" onClose={onClose}>
      <p className="actions">
        <button type="button" className="button" onClick={onSaveAs}>
          Save as a template of mine
        </button>
        <FileButton onFiles={onFiles} />
        <button type="button" className="button" onClick={() => setBeginning(true)}>
          New empty workbook
        </button>
      </p>
      {beginning ? (
        <NewBook
          onBegin={async (name, units) => {
            const done = await run(() => newBook(bookcase, name, units));
            if (done.ok) onOpened();
            return done;
          }}
          onCancel={() => setBeginning(false)}
        />
      ) : null}
      {says === undefined ? null : (
        <p className="complaint" role="alert">
          {says}
        </p>
      )}
      {listing === undefined ? (
        <p className="quiet">Reading the list …</p>
      ) : (
        <Lists listing={listing} tools={tools} />
      )}
      <p className="quiet dialog-foot">
        Kerfbook is free software and contains work of others.{' '}
        <a href="licences.html" target="_blank" rel="noopener">
          Licences
        </a>
      </p>
    </Dialog>
  );
}

interface NewBookProps {
  readonly onBegin: (name: string, units: 'us' | 'metric') => Promise<Done>;
  readonly onCancel: () => void;
}

/** Asks for the name of an empty workbook and the units it counts in. */
function NewBook({ onBegin, onCancel }: NewBookProps) {
  const [units, setUnits] = useState<'us' | 'metric'>('us');
  return (
    <div className="question">
      <p>
        <label>
          Counts in{' '}
          <select
            className="field"
            value={units}
            onChange={(event) => setUnits(event.target.value === 'metric' ? 'metric' : 'us')}
          >
            <option value="us">inches and pounds</option>
            <option value="metric">millimetres and kilograms</option>
          </select>
        </label>
      </p>
      <NameForm
        label="Its name"
        start="My workbook"
        does="Begin"
        onName={(name) => onBegin(name, units)}
        onCancel={onCancel}
      />
    </div>
  );
}

function Lists({ listing, tools }: { readonly listing: Listing; readonly tools: RowTools }) {
  const { templates, own, trash } = listing;
  return (
    <>
      <Section title="Templates that ship" empty="">
        {templates.map((row) => (
          <TemplateRow key={row.key} row={row} tools={tools} />
        ))}
      </Section>
      <Section title="Yours" empty="None yet. Change a template and save it under a name of yours.">
        {own.map((head) => (
          <OwnRow key={head.id} head={head} tools={tools} />
        ))}
      </Section>
      {trash.length === 0 ? null : (
        <Section title="Trash" empty="" below={<EmptyTrash many={trash.length} tools={tools} />}>
          {trash.map((head) => (
            <TrashRow key={head.id} head={head} tools={tools} />
          ))}
        </Section>
      )}
    </>
  );
}

/** Nothing leaves the trash by itself: a clock that is wrong would take work along. */
function EmptyTrash({ many, tools }: { readonly many: number; readonly tools: RowTools }) {
  const [asking, setAsking] = useState<boolean>();
  const { bookcase, run } = tools;
  const all = many === 1 ? '1 workbook' : `all ${many} workbooks`;
  if (asking === true) {
    return (
      <Question
        says={`Delete ${all} in the trash for good? Nothing of them stays on this device.`}
        does={`Delete ${all} for good`}
        onYes={() => void run(() => emptyTrash(bookcase))}
        onNo={() => setAsking(false)}
      />
    );
  }
  return (
    <p className="actions">
      <button
        type="button"
        className="button"
        ref={(button) => {
          if (asking === false) button?.focus();
        }}
        onClick={() => setAsking(true)}
      >
        Empty the trash
      </button>
    </p>
  );
}

interface SectionProps {
  readonly title: string;
  readonly empty: string;
  readonly children: readonly ReactNode[];
  readonly below?: ReactNode;
}

function Section({ title, empty, children, below }: SectionProps) {
  return (
    <section className="book-section">
      <h3>{title}</h3>
      {children.length === 0 ? <p className="quiet">{empty}</p> : <ul>{children}</ul>}
      {below}
    </section>
  );
}

/** A button that opens the device's own file chooser. */
function FileButton({ onFiles }: { readonly onFiles: (files: readonly File[]) => void }) {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <button type="button" className="button" onClick={() => input.current?.click()}>
        Open a file
      </button>
      <input
        ref={input}
        type="file"
        accept=".json,application/json"
        hidden
        aria-label="Workbook file"
        onChange={(event) => {
          onFiles([...(event.currentTarget.files ?? [])]);
          // The same file chosen again is a new wish.
          event.currentTarget.value = '';
        }}
      />
    </>
  );
}

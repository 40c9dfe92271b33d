import {
  type Bookcase,
  type BookHead,
  type Done,
  type Listing,
  notDone,
  writeTrouble,
} from '@kerfbook/keeping';
import {
  type ApplyEdit,
  allBooksCopy,
  emptyTrash,
  freeTitle,
  listBooks,
  newBook,
  newFurnitureBook,
  restoreBook,
  titlesIn,
} from '@kerfbook/keeping/shelf';
import {
  type ReactNode,
  useCallback,
  useEffect,
  useLayoutEffect,
  useMemo,
  useRef,
  useState,
  useSyncExternalStore,
} from 'react';
import { goByArrows, typeToFind } from '../gallery/arrows.ts';
import { CardDesk } from '../gallery/card-desk.ts';
import { byKind } from '../gallery/kinds.ts';
import { lookedFor } from '../gallery/looked-for.ts';
import '../gallery/gallery.css';
import { MOST_CELLS } from '../commands/clipboard.ts';
import { fromTable, fromTabs } from '../commands/from-tabular.ts';
import { toTabs } from '../commands/tabular.ts';
import { asFile, isSheet } from '../page/coming-files.ts';
import { servedByClub } from '../page/served-by-club.ts';
import { download } from '../storage/download.ts';
import { BringIn, FROM_ELSEWHERE, useAtClub } from './at-club.tsx';
import { MAY_CLEAR } from './at-risk.tsx';
import { OwnRow, Question, type RowTools, TemplateRow, TrashRow } from './book-rows.tsx';
import { Dialog } from './dialog.tsx';
import { momentsOf } from './moments.ts';
import { NameForm } from './name-form.tsx';
import { useBookcase } from './use-bookcase.ts';

interface WorkbooksProps {
  readonly bookcase: Bookcase;
  readonly apply: ApplyEdit;
  readonly onSaveAs: () => void;
  /** What a workbook has otherwise than the one at hand is asked for. */
  readonly onCompare: (id: string) => void;
  readonly onFiles: (files: readonly File[]) => void;
  /** The jobs among them are asked for. */
  readonly onJobs: () => void;
  /** Another workbook is open: closes the dialog and goes on in that. */
  readonly onOpened: () => void;
  readonly onClose: () => void;
  /** The list comes by itself, since a workbook could not be opened. */
  readonly unasked: boolean;
}

/** Every workbook on this device: what is built in, the maker's own, and the trash. */
export default function Workbooks(props: WorkbooksProps) {
  const { bookcase, apply, onSaveAs, onCompare, onFiles, onJobs, onOpened, onClose, unasked } =
    props;
  const { keeping } = useBookcase(bookcase);
  const [listing, setListing] = useState<Listing>();
  const [says, setSays] = useState<string>();
  const [beginning, setBeginning] = useState<'furniture' | 'blank'>();

  const refresh = useCallback(async () => {
    try {
      await bookcase.fold();
      setListing(await listBooks(bookcase));
    } catch (error) {
      setSays(`The list could not be read: ${writeTrouble(error)}`);
    }
  }, [bookcase]);
  useEffect(() => void refresh(), [refresh]);

  const atClub = useAtClub(refresh);

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
  const [desk, setDesk] = useState<CardDesk>();
  // Before anything is painted: what is built in is there at once.
  useLayoutEffect(() => {
    const made = new CardDesk(bookcase);
    setDesk(made);
    return () => made.close();
  }, [bookcase]);
  // Told for as long as it is there: it may be put back, or deleted for good, from the trash itself.
  const [trashed, setTrashed] = useState<BookHead>();
  const [typed, setTyped] = useState('');
  usePastedSheet(onFiles, setSays);
  const beside = listing?.beside ?? new Map();
  const shops = listing?.shops;
  const shared = { bookcase, apply, run, open, opened: onOpened, beside, shops, unasked, atClub };

  return (
    <Dialog title="Workbooks" className="gallery" onClose={onClose} onKeyDown={typeToFind}>
      <label className="gallery-find">
        Find
        <input
          className="field"
          type="search"
          value={typed}
          data-later
          autoComplete="off"
          spellCheck={false}
          placeholder="bench 6 ft, white oak, mortise"
          onChange={(event) => setTyped(event.target.value)}
        />
      </label>
      <p className="actions">
        <button
          type="button"
          className={beginning === undefined ? 'button button-main' : 'button'}
          onClick={() => setBeginning('furniture')}
        >
          New furniture workbook
        </button>
        <button type="button" className="button" onClick={() => setBeginning('blank')}>
          New blank workbook
        </button>
        <FileButton onFiles={onFiles} />
        <button type="button" className="button" onClick={onSaveAs}>
          Save as my template
        </button>
        <button type="button" className="button" onClick={onJobs}>
          Jobs
        </button>
      </p>
      {keeping === 'atRisk' ? (
        <p className="may-clear">{MAY_CLEAR} Save copies of yours as files.</p>
      ) : null}
      {beginning === undefined ? null : (
        <NewBook
          key={beginning}
          what={beginning}
          taken={listing === undefined ? [] : titlesIn(listing)}
          onBegin={async (name, units, kerf) => {
            // What does not do is said once, in the form.
            const done =
              beginning === 'furniture'
                ? await newFurnitureBook(bookcase, name, units, kerf)
                : await newBook(bookcase, name, units);
            if (done.ok) onOpened();
            return done;
          }}
          onCancel={() => setBeginning(undefined)}
        />
      )}
      {says === undefined ? null : (
        <p className="complaint" role="alert">
          {says}
        </p>
      )}
      {trashed === undefined ||
      listing?.trash.some(({ id }) => id === trashed.id) !== true ? null : (
        <p className="undo-line" role="status">
          {`"${trashed.title}" is in the trash.`}
          <button
            type="button"
            className="button"
            onClick={() => {
              setTrashed(undefined);
              void run(() => restoreBook(bookcase, trashed.id));
            }}
          >
            Undo
          </button>
        </p>
      )}
      {desk === undefined ? null : (
        <Lists
          listing={listing}
          mayHaveOwn={keeping !== 'unknown' || bookcase.revision > 0}
          typed={typed}
          onAll={() => setTyped('')}
          tools={{ ...shared, desk, onCompare, onTrashed: setTrashed }}
        />
      )}
      <p className="quiet dialog-foot">
        Kerfbook is free software and contains work of others.{' '}
        <a href="licences.html" target="_blank" rel="noopener">
          Licenses
        </a>
      </p>
    </Dialog>
  );
}

/** A whole sheet that is pasted where nothing is typed is a file of its own. */
function usePastedSheet(
  onFiles: WorkbooksProps['onFiles'],
  onSays: (says: string | undefined) => void,
): void {
  useEffect(() => {
    const paste = (event: ClipboardEvent): void => {
      const { target, clipboardData } = event;
      if (target instanceof Element && target.closest('input, textarea, select')) return;
      if (document.querySelector('dialog.gallery') === null || clipboardData === null) return;
      const text = clipboardData.getData('text/plain');
      const lines = fromTable(clipboardData.getData('text/html'), MOST_CELLS);
      if (!isSheet(lines ?? fromTabs(text, MOST_CELLS))) return;
      event.preventDefault();
      onSays(undefined);
      onFiles([asFile(lines === undefined ? text : toTabs(lines))]);
    };
    document.addEventListener('paste', paste);
    return () => document.removeEventListener('paste', paste);
  }, [onFiles, onSays]);
}

interface NewBookProps {
  readonly what: 'furniture' | 'blank';
  /** Titles of the workbooks that are here. */
  readonly taken: readonly string[];
  readonly onBegin: (name: string, units: 'us' | 'metric', kerf: string) => Promise<Done>;
  readonly onCancel: () => void;
}

/** Asks for the name of a new workbook, the units it counts in and, where wood is cut, the saw's kerf. */
function NewBook({ what, taken, onBegin, onCancel }: NewBookProps) {
  const [units, setUnits] = useState<'us' | 'metric'>('us');
  const [kerf, setKerf] = useState('');
  return (
    <div className="question">
      <p>
        {what === 'furniture'
          ? 'Starts with a parts table and a stock table: list the parts, and the drawing, the cut list and the buying list follow.'
          : 'Starts with one blank sheet.'}
      </p>
      <label>
        Units
        <select
          className="field"
          value={units}
          onChange={(event) => setUnits(event.target.value === 'metric' ? 'metric' : 'us')}
        >
          <option value="us">inches and pounds</option>
          <option value="metric">millimeters and kilograms</option>
        </select>
      </label>
      <NameForm
        label="Workbook name"
        start={freeTitle(what === 'furniture' ? 'My furniture' : 'My workbook', taken)}
        does="Begin"
        onName={(name) => onBegin(name, units, kerf)}
        onCancel={onCancel}
      >
        {what === 'furniture' ? (
          <>
            <label>
              Saw kerf
              <input
                className="field"
                value={kerf}
                size={8}
                autoComplete="off"
                onChange={(event) => setKerf(event.target.value)}
              />
            </label>
            <p className="quiet">
              {`What your blade takes away with each cut, about ${units === 'us' ? '1/8 in' : '3.2 mm'}; measure it in a scrap.`}
            </p>
          </>
        ) : null}
      </NameForm>
    </div>
  );
}

interface ListsProps {
  /** Left out while it is read. */
  readonly listing: Listing | undefined;
  /** There is work of the maker's own on this device, as far as that is known without the list. */
  readonly mayHaveOwn: boolean;
  readonly tools: RowTools;
  /** What is looked for. */
  readonly typed: string;
  /** Everything is to be shown again. */
  readonly onAll: () => void;
}

function Lists({ listing, mayHaveOwn, tools, typed, onAll }: ListsProps) {
  const { bookcase, desk } = tools;
  useSyncExternalStore(desk.watch, desk.version);
  const known = useMemo(() => listing ?? builtIn(bookcase), [listing, bookcase]);
  const { templates, own, trash, says } = lookedFor(known, typed, (id) => desk.card(id));
  const isAll = typed.trim() === '';
  useEffect(() => desk.rest(known.own), [desk, known]);
  const apart = new Map(toldApart(known.own).map((one) => [one.head, one.changed]));
  const isComing = listing === undefined;
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: arrows between its buttons are a shorter way, Tab goes there too
    <div onKeyDown={goByArrows} aria-busy={isComing}>
      <p role="status" className="quiet">
        {isComing ? '' : says}
      </p>
      {isComing ? (
        <section className="book-section">
          <h3>Yours</h3>
          <p className={mayHaveOwn ? 'quiet cards-coming' : 'quiet'}>Reading the list …</p>
        </section>
      ) : null}
      {isAll || isComing || own.length + templates.length + trash.length > 0 ? null : (
        <p>
          <button type="button" className="button" onClick={onAll}>
            Show all workbooks
          </button>
        </p>
      )}
      {!isComing && (isAll || own.length > 0) ? (
        <Section
          title="Yours"
          empty={`None yet. What you change or save is listed here.${servedByClub ? ` ${FROM_ELSEWHERE}` : ''}`}
          above={
            tools.atClub === undefined ? undefined : (
              <BringIn atClub={tools.atClub} own={known.own} />
            )
          }
          below={isAll && own.length > 0 ? <SaveAll bookcase={bookcase} /> : undefined}
        >
          {own.map((head) => (
            <OwnRow
              key={head.id}
              head={head}
              taken={titlesIn(known)}
              changed={apart.get(head)}
              tools={tools}
            />
          ))}
        </Section>
      ) : null}
      {templates.length === 0 ? null : (
        <section className="book-section">
          <h3>Built-in templates</h3>
          <p className="quiet">
            "Open" gives you a copy to change: the template itself stays as it came. "Start a new
            one" begins another copy beside the one you have changed.
          </p>
          {(isAll ? byKind(templates) : [{ kind: undefined, of: templates }]).map(
            ({ kind, of }) => (
              <div key={kind?.says ?? 'found'}>
                {kind === undefined ? null : <p className="card-group">{kind.says}</p>}
                <ul aria-label={kind?.says ?? 'Found'}>
                  {of.map((row) => (
                    <TemplateRow key={row.key} row={row} tools={tools} />
                  ))}
                </ul>
              </div>
            ),
          )}
        </section>
      )}
      {trash.length === 0 ? null : (
        <Section
          title="Trash"
          empty=""
          below={isAll ? <EmptyTrash many={trash.length} tools={tools} /> : undefined}
        >
          {trash.map((head) => (
            <TrashRow key={head.id} head={head} tools={tools} />
          ))}
        </Section>
      )}
    </div>
  );
}

/** What can be listed before the device was asked. */
const builtIn = ({ templates }: Bookcase): Listing => ({
  templates,
  own: [],
  trash: [],
  beside: new Map(),
});

/** Workbooks with the moment of their last change, where another one has the same title: it tells them apart. */
function toldApart(own: readonly BookHead[]): readonly {
  readonly head: BookHead;
  readonly changed: string | undefined;
}[] {
  return own.map((head) => {
    const alike = own.filter(({ title }) => title === head.title);
    if (alike.length === 1) return { head, changed: undefined };
    const moments = momentsOf(alike.map(({ updated }) => updated));
    const place = alike.indexOf(head);
    const moment = moments[place] || 'at a time not known';
    // One that is left is saved in the second in which the next begins.
    const isAlone = moments.filter((one) => one === moments[place]).length === 1;
    return { head, changed: isAlone ? moment : `${moment} (${place + 1})` };
  });
}

/** Nothing leaves the trash by itself: a clock that is wrong would take work along. */
function EmptyTrash({ many, tools }: { readonly many: number; readonly tools: RowTools }) {
  const [asking, setAsking] = useState<boolean>();
  const { bookcase, run } = tools;
  const all = many === 1 ? '1 workbook' : `all ${many} workbooks`;
  if (asking === true) {
    return (
      <Question
        says={`Delete ${all} in the trash for good? Nothing of them stays on this device${tools.atClub === undefined ? '' : ', nor at the club of those that are yours there'}.`}
        does={`Delete ${all} for good`}
        onYes={() =>
          void run(() => tools.atClub?.follows.books.emptyTrash() ?? emptyTrash(bookcase))
        }
        onNo={() => setAsking(false)}
      />
    );
  }
  return (
    <p className="actions">
      <button
        type="button"
        className="button button-danger"
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
  readonly above?: ReactNode;
  readonly below?: ReactNode;
}

const SAVES_ALL =
  'Without their earlier versions. Open it with "Open a file" on another device or at another address';

/** All of the maker's own workbooks as one file: for another device, or another address of the app. */
function SaveAll({ bookcase }: { readonly bookcase: Bookcase }) {
  const save = async (): Promise<void> => {
    try {
      const { fileName, text, says } = await allBooksCopy(bookcase);
      download(fileName, text);
      if (says !== undefined) bookcase.notice(says, 'in list');
    } catch (error) {
      bookcase.notice(`The file could not be made: ${writeTrouble(error)}`);
    }
  };
  return (
    <p className="actions">
      <button type="button" className="button" title={SAVES_ALL} onClick={() => void save()}>
        Save all of mine as one file
      </button>
    </p>
  );
}

function Section({ title, empty, children, above, below }: SectionProps) {
  return (
    <section className="book-section">
      <h3>{title}</h3>
      {above}
      {children.length === 0 ? <p className="quiet">{empty}</p> : <ul>{children}</ul>}
      {below}
    </section>
  );
}

/** Workbooks, and files of other programs. */
const OPENS =
  '.json,application/json,.xlsx,.xlsm,.xltx,.xltm,.ods,.ots,.csv,.tsv,.tab,.txt,text/csv,text/tab-separated-values';

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
        accept={OPENS}
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

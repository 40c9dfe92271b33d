import {
  type Edit,
  exampleResults,
  type FunctionPage,
  findPages,
  functionPages,
  type OpenWorkbook,
  ownTableEdit,
  STANDARD_PAGES,
  type StandardPage,
  showWithUnit,
  standardCall,
  standardSays,
  workOut,
} from '@kerfbook/workbook';
import { type ReactNode, useEffect, useId, useMemo, useRef, useState } from 'react';
import { Dialog } from '../library/dialog.tsx';
import './functions.css';

interface FunctionsProps {
  readonly book: OpenWorkbook;
  /** False where this tab only reads. */
  readonly mayChange: boolean;
  /** Carries out an edit that adds a sheet of the maker's own figures, and goes there. */
  readonly onOwnTable: (edit: Edit) => void;
  /** A function to show at once. */
  readonly start?: string | undefined;
  readonly onClose: () => void;
}

/** Every function by task: the woodworking ones, to look up and to try, then the standard ones. */
export default function Functions(props: FunctionsProps) {
  const { book, mayChange, start, onOwnTable, onClose } = props;
  const { units } = book;
  const [asked, setAsked] = useState('');
  const pages = useMemo(() => functionPages(units), [units]);
  const results = useMemo(() => exampleResults(pages), [pages]);
  const found = useMemo(() => findPages(pages, asked), [pages, asked]);
  const standard = useMemo(() => findPages(STANDARD_PAGES, asked), [asked]);
  const count = found.length + standard.length;
  const field = useId();
  return (
    <Dialog title="Functions" onClose={onClose}>
      <p className="function-search">
        <label htmlFor={field}>Search for</label>
        <input
          id={field}
          className="field"
          type="search"
          placeholder="movement, clamps, EMC …"
          spellCheck={false}
          value={asked}
          onChange={(event) => setAsked(event.target.value)}
        />
        <span className="quiet" role="status">
          {asked.trim() === '' ? `${count} functions` : `${count} found`}
        </span>
      </p>
      {mayChange && asked === '' ? <OwnTables book={book} onOwnTable={onOwnTable} /> : null}
      {count === 0 ? <p>No function found. Try another word, or fewer.</p> : null}
      {byTask(found).map(([task, entries]) => (
        <section key={task} className="function-task">
          <h3>{task}</h3>
          {entries.map((page) => (
            <Entry key={page.name} page={page} start={page.name === start || count === 1}>
              <Details page={page} result={results.get(page.name) ?? ''} />
            </Entry>
          ))}
        </section>
      ))}
      {byTask(standard).map(([task, entries]) => (
        <section key={task} className="function-task">
          <h3>
            {task} <span className="quiet">standard</span>
          </h3>
          {entries.map((page) => (
            <Entry key={page.name} page={page} start={count === 1}>
              <StandardDetails page={page} />
            </Entry>
          ))}
        </section>
      ))}
    </Dialog>
  );
}

function byTask<Page extends { readonly task: string }>(
  pages: readonly Page[],
): readonly (readonly [task: string, pages: readonly Page[]])[] {
  const tasks = [...new Set(pages.map(({ task }) => task))];
  return tasks.map((task) => [task, pages.filter((page) => page.task === task)]);
}

const OWN = ['woods', 'screws', 'finishes'] as const;

/** Sheets for figures of the maker's own, which the functions look in first. */
function OwnTables({ book, onOwnTable }: Pick<FunctionsProps, 'book' | 'onOwnTable'>) {
  const edits = OWN.flatMap((kind) => {
    const edit = ownTableEdit(book, kind);
    return edit === undefined ? [] : [{ kind, edit }];
  });
  if (edits.length === 0) return null;
  return (
    <p className="function-own">
      <span>Is a wood, screw or finish missing, or did you measure your own? Add a sheet:</span>
      {edits.map(({ kind, edit }) => (
        <button key={kind} type="button" className="button" onClick={() => onOwnTable(edit)}>
          My {kind}
        </button>
      ))}
    </p>
  );
}

interface EntryProps {
  readonly page: Pick<FunctionPage, 'name' | 'answers'>;
  /** Unfolded from the start, and in view. */
  readonly start: boolean;
  /** What is shown unfolded. */
  readonly children: ReactNode;
}

function Entry({ page, start, children }: EntryProps) {
  const [open, setOpen] = useState(start);
  const element = useRef<HTMLDetailsElement>(null);
  useEffect(() => {
    if (!start) return;
    setOpen(true);
    element.current?.scrollIntoView({ block: 'start' });
  }, [start]);
  return (
    <details
      ref={element}
      className="function"
      open={open}
      onToggle={(event) => setOpen(event.currentTarget.open)}
    >
      <summary>
        <strong>{page.name}</strong> <span className="quiet">{page.answers}</span>
      </summary>
      {open ? children : null}
    </details>
  );
}

function Details({ page, result }: { readonly page: FunctionPage; readonly result: string }) {
  return (
    <div className="function-page">
      <p>
        <code>{page.call}</code>
      </p>
      <dl className="function-arguments">
        {page.args.map(({ name, says }) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{says}</dd>
          </div>
        ))}
        <div>
          <dt>gives</dt>
          <dd>{page.gives}</dd>
        </div>
      </dl>
      <Try page={page} result={result} />
      {page.notes === undefined ? null : <p>{page.notes}</p>}
      <p className="quiet">Source: {page.source}.</p>
    </div>
  );
}

function StandardDetails({ page }: { readonly page: StandardPage }) {
  return (
    <div className="function-page">
      <p>
        <code>{standardCall(page)}</code>
      </p>
      {page.args.length === 0 ? (
        <p className="quiet">nothing goes in the parentheses</p>
      ) : (
        <dl className="function-arguments">
          {page.args.map((argument) => (
            <div key={argument.name}>
              <dt>{argument.name}</dt>
              <dd>{standardSays(argument)}</dd>
            </div>
          ))}
        </dl>
      )}
      {page.sameAs === undefined ? null : <p>Another name of {page.sameAs}.</p>}
    </div>
  );
}

/** The example, which may be written over to try other numbers. */
function Try({ page, result }: { readonly page: FunctionPage; readonly result: string }) {
  const [text, setText] = useState(page.example);
  const field = useId();
  const shown = useMemo(
    () => (text === page.example ? { text: result } : tried(text)),
    [text, page, result],
  );
  return (
    <div className="function-try">
      <label htmlFor={field}>Try it, in inches and pounds</label>
      <input
        id={field}
        className="field"
        spellCheck={false}
        autoComplete="off"
        value={text}
        onChange={(event) => setText(event.target.value)}
      />
      <output htmlFor={field}>{shown.text}</output>
      {shown.says === undefined ? null : <p className="quiet">{shown.says}</p>}
    </div>
  );
}

function tried(text: string): { readonly text: string; readonly says?: string } {
  const formula = text.trimStart().startsWith('=') ? text : `=${text}`;
  const [answer] = workOut([formula], 'us');
  const value = answer?.rows[0]?.[0];
  if (answer === undefined || value === undefined) return { text: '' };
  return {
    text: showWithUnit(value, answer.context),
    ...(value.kind === 'error' ? { says: value.error.says } : {}),
  };
}

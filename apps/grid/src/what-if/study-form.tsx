import { clausesOf, type Study } from '@kerfbook/studies';
import type { CellView, OpenWorkbook } from '@kerfbook/workbook';
import { useId, useState } from 'react';
import type { Session } from '../session/session.ts';
import {
  enterUnder,
  entryUnder,
  inputsOf,
  joined,
  KINDS,
  rangeOf,
  resultsOf,
  type StudyHead,
} from './studies-table.ts';

interface StudyFormProps {
  readonly session: Session;
  readonly book: OpenWorkbook;
  readonly study: Study;
}

const HINTS = {
  table: 'Values with commas between, or from..to /step.',
  best: 'Values with commas between, or from..to /step.',
  seek: 'Blank for the range of its cell, or from..to.',
  spread: 'Low, likely and high, with commas between.',
} as const;

/** What a study asks: each field is a cell of the table of studies. */
export function StudyForm({ session, book, study }: StudyFormProps) {
  const entry = (head: StudyHead): string => entryUnder(book, study, head);
  const [says, setSays] = useState<string>();
  const write = (...entries: readonly (readonly [head: StudyHead, text: string])[]): void =>
    setSays(enterUnder(session, study, entries));
  const kind = KINDS.find(([one]) => one === entry('kind').trim().toLowerCase())?.[0] ?? 'table';
  const clauses = clausesOf(entry('over'));
  const inputs = inputsOf(book);
  const results = resultsOf(book);
  const shown = namesIn(entry('show'));
  const over = (at: number, clause: readonly [string, string] | undefined): void => {
    const next = clause === undefined ? clauses.toSpliced(at, 1) : clauses.with(at, clause);
    write(['over', joined(next)]);
  };
  return (
    <div className="whatif-form">
      <Text
        label="Name of the study"
        value={entry('study')}
        onEnter={(text) => write(['study', text])}
      />
      <fieldset className="whatif-part">
        <legend>{kind === 'seek' ? 'Change' : 'Over'}</legend>
        {clauses.map(([name, rest], at) => (
          // Two clauses may name one input while they are written.
          // biome-ignore lint/suspicious/noArrayIndexKey: a clause has no other key
          <div key={at} className="whatif-clause">
            <Choose
              label="Input"
              cells={inputs}
              book={book}
              value={name}
              onChoose={(next) => {
                const cell = book.named(next);
                const range =
                  cell === undefined || kind !== 'table' ? '' : (rangeOf(book, cell) ?? '');
                over(at, [next, range]);
              }}
            />
            <Text label="What it becomes" value={rest} onEnter={(text) => over(at, [name, text])} />
            {kind === 'seek' ? null : (
              <button
                type="button"
                className="button"
                aria-label={`Leave out ${name}`}
                onClick={() => over(at, undefined)}
              >
                Leave out
              </button>
            )}
          </div>
        ))}
        <p className="quiet">{HINTS[kind]}</p>
        {kind === 'seek' && clauses.length > 0 ? null : (
          <Add
            label="Add an input"
            cells={inputs.filter(({ name }) => !clauses.some(([one]) => one === name))}
            book={book}
            onAdd={(name) => {
              const cell = book.named(name);
              const range =
                cell === undefined || kind === 'spread' ? '' : (rangeOf(book, cell) ?? '');
              write(['over', joined([...clauses, [name, kind === 'seek' ? '' : range]])]);
            }}
          />
        )}
      </fieldset>
      {kind === 'table' || kind === 'spread' ? (
        <fieldset className="whatif-part">
          <legend>Results</legend>
          <ul className="whatif-chips">
            {shown.map((name) => (
              <li key={name}>
                {labelOf(book, name)}
                <button
                  type="button"
                  className="button"
                  aria-label={`Leave out ${labelOf(book, name)}`}
                  onClick={() => write(['show', shown.filter((one) => one !== name).join(', ')])}
                >
                  Leave out
                </button>
              </li>
            ))}
          </ul>
          <Add
            label="Add a result"
            cells={results.filter(({ name = '' }) => !shown.includes(name))}
            book={book}
            onAdd={(name) => write(['show', [...shown, name].join(', ')])}
          />
        </fieldset>
      ) : (
        <fieldset className="whatif-part">
          <legend>{kind === 'seek' ? 'Until' : 'Least or most of'}</legend>
          <Text
            label={
              kind === 'seek'
                ? 'A result and what it should be, such as price at most 2400'
                : 'One result or two, such as price, most seats'
            }
            value={entry('goal')}
            onEnter={(text) => write(['goal', text])}
          />
          {kind === 'seek' ? (
            <label className="whatif-tick">
              <input
                type="checkbox"
                checked={/^(yes|true)$/i.test(entry('keep'))}
                disabled={!session.mayChange}
                onChange={({ target }) => write(['keep', target.checked ? 'yes' : 'no'])}
              />
              Only where no check says stop
            </label>
          ) : null}
        </fieldset>
      )}
      {kind === 'spread' ? (
        <fieldset className="whatif-part whatif-pair">
          <legend>Tries</legend>
          <Text
            label="How many"
            value={entry('draws')}
            hint="10,000"
            onEnter={(text) => write(['draws', text])}
          />
          <Text
            label="Seed"
            value={entry('seed')}
            hint="1"
            onEnter={(text) => write(['seed', text])}
          />
        </fieldset>
      ) : null}
      {says === undefined ? null : (
        <p role="alert" className="whatif-says">
          {says}
        </p>
      )}
      {study.problems.map((problem) => (
        <p key={problem.says} role="alert" className="whatif-says">
          {problem.says}
        </p>
      ))}
    </div>
  );
}

const namesIn = (text: string): readonly string[] =>
  text
    .split(',')
    .map((name) => name.trim())
    .filter((name) => name !== '');

/** What a named cell is called on its sheet; its name where nothing stands beside it. */
export function labelOf(book: OpenWorkbook, name: string): string {
  const cell = book.named(name);
  return cell === undefined ? name : book.labelOf(cell.at) || name;
}

interface TextProps {
  readonly label: string;
  readonly value: string;
  readonly hint?: string;
  readonly onEnter: (text: string) => void;
}

/** A field that is written into its cell when it is left. */
function Text({ label, value, hint, onEnter }: TextProps) {
  const [draft, setDraft] = useState<string>();
  const id = useId();
  const enter = (): void => {
    if (draft !== undefined && draft !== value) onEnter(draft);
    setDraft(undefined);
  };
  return (
    <div className="plan-field">
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        className="field"
        autoComplete="off"
        value={draft ?? value}
        placeholder={hint}
        onChange={({ target }) => setDraft(target.value)}
        onBlur={enter}
        onKeyDown={({ key }) => {
          if (key === 'Enter') enter();
          else if (key === 'Escape') setDraft(undefined);
        }}
      />
    </div>
  );
}

interface ChooseProps {
  readonly label: string;
  readonly cells: readonly CellView[];
  readonly book: OpenWorkbook;
  readonly value: string;
  readonly onChoose: (name: string) => void;
}

function Choose({ label, cells, book, value, onChoose }: ChooseProps) {
  const id = useId();
  const known = cells.some(({ name }) => name === value);
  return (
    <div className="plan-field">
      <label htmlFor={id}>{label}</label>
      <select
        id={id}
        className="field"
        value={value}
        onChange={({ target }) => onChoose(target.value)}
      >
        {known ? null : <option value={value}>{value || 'Choose one'}</option>}
        <Options cells={cells} book={book} />
      </select>
    </div>
  );
}

interface AddProps {
  readonly label: string;
  readonly cells: readonly CellView[];
  readonly book: OpenWorkbook;
  readonly onAdd: (name: string) => void;
}

function Add({ label, cells, book, onAdd }: AddProps) {
  return (
    <select
      className="field whatif-add"
      aria-label={label}
      value=""
      onChange={({ target }) => onAdd(target.value)}
    >
      <option value="">{label} …</option>
      <Options cells={cells} book={book} />
    </select>
  );
}

function Options({ cells, book }: Pick<AddProps, 'cells' | 'book'>) {
  const sheets = new Map<string, CellView[]>();
  for (const cell of cells) {
    const name = book.sheet(cell.at.sheet)?.name ?? '';
    sheets.set(name, [...(sheets.get(name) ?? []), cell]);
  }
  return [...sheets].map(([sheet, all]) => (
    <optgroup key={sheet} label={sheet}>
      {all.map((cell) => (
        <option key={cell.name} value={cell.name}>
          {book.labelOf(cell.at) || cell.name}
        </option>
      ))}
    </optgroup>
  ));
}

import {
  type CheckDocument,
  columnName,
  type OpenWorkbook,
  type Place,
  randomId,
  readWritten,
  shifting,
  typedTokens,
  writtenSheet,
} from '@kerfbook/workbook';
import { type FormEvent, useId, useState } from 'react';
import { Dialog } from '../library/dialog.tsx';
import { cellsOf, placesOf } from '../session/area.ts';
import type { Session } from '../session/session.ts';
import '../styles/menu.css';

interface CheckFormProps {
  readonly session: Session;
  /** The check to change; undefined for a new one. */
  readonly id: string | undefined;
  /** A new one marks the cells that are selected. */
  readonly forSelected?: boolean;
  readonly onClose: () => void;
}

/** A rule that must hold: its formula, how bad it is when it does not, and the sentence that says so. */
export default function CheckForm({ session, id, forSelected, onClose }: CheckFormProps) {
  const { book } = session;
  const [start] = useState(() => (forSelected === true ? selectedStart(session) : undefined));
  const old = book.checkForms().find((check) => check.id === id);
  const [name, setName] = useState(old?.name ?? '');
  const [formula, setFormula] = useState(old?.formula ?? start?.formula ?? '=');
  const [severity, setSeverity] = useState<CheckDocument['severity']>(old?.severity ?? 'care');
  const [says, setSays] = useState(old?.says ?? '');
  const [cells, setCells] = useState((old?.cells ?? start?.cells ?? '').replace(/^=/, ''));
  const [each, setEach] = useState(false);
  const [complaint, setComplaint] = useState<string>();
  const field = useId();
  const save = (event: FormEvent): void => {
    event.preventDefault();
    const home = book.sheet(old?.sheet ?? session.at.sheet)?.name ?? '';
    const full = withSheet(formula, home);
    const bears = cells.trim() === '' ? undefined : withSheet(`=${cells.trim()}`, home);
    const trouble = troubleWith(book, { name, formula: full, says }) ?? cellsTrouble(bears);
    setComplaint(trouble);
    if (trouble !== undefined) return;
    const checks = book.document().checks;
    const check = (more: { formula: string; bears: string | undefined; name?: string }) => ({
      id: randomId('k'),
      name: more.name ?? name.trim(),
      sheet: old?.sheet ?? session.at.sheet,
      formula: book.keptFormula(more.formula),
      severity,
      says: says.trim(),
      ...(more.bears === undefined ? {} : { cells: book.keptFormula(more.bears) }),
    });
    const fullAt = shifting(full);
    const next: CheckDocument[] =
      old !== undefined
        ? checks.map((one) =>
            one.id === old.id ? { ...check({ formula: full, bears }), id: old.id } : one,
          )
        : each && start !== undefined
          ? [
              ...checks,
              ...start.places.map(({ down, across, address }) =>
                check({
                  formula: fullAt(down, across),
                  bears: withSheet(`=${address}`, home),
                  name: `${name.trim()}, ${address}`,
                }),
              ),
            ]
          : [...checks, check({ formula: full, bears })];
    const result = session.apply({ do: 'setChecks', checks: next });
    if (result.ok) onClose();
    else setComplaint(result.says);
  };
  return (
    <Dialog title={old === undefined ? 'New check' : 'Edit check'} onClose={onClose}>
      <form className="asked" onSubmit={save}>
        <p className="asked-line">
          <label htmlFor={`${field}n`}>Name</label>
          <input
            id={`${field}n`}
            className="field"
            value={name}
            maxLength={200}
            autoComplete="off"
            onChange={(event) => setName(event.target.value)}
          />
        </p>
        <p className="asked-line">
          <label htmlFor={`${field}f`}>What must be true</label>
          <input
            id={`${field}f`}
            className="field"
            value={formula}
            spellCheck={false}
            autoComplete="off"
            onChange={(event) => setFormula(event.target.value)}
          />
          <span className="quiet">For example =knee_room&gt;=24. Use names of cells.</span>
        </p>
        <p className="asked-line">
          <label htmlFor={`${field}m`}>Cells to mark</label>
          <input
            id={`${field}m`}
            className="field"
            value={cells}
            spellCheck={false}
            autoComplete="off"
            onChange={(event) => setCells(event.target.value)}
          />
          <span className="quiet">
            A cell or a range, such as B4:B9. Leave it blank to mark none.
          </span>
        </p>
        {start === undefined || start.places.length < 2 ? null : (
          <label className="asked-line">
            <span>
              <input
                type="checkbox"
                checked={each}
                onChange={(event) => setEach(event.target.checked)}
              />{' '}
              A check for each of these {start.places.length} cells, with its formula filled along
            </span>
          </label>
        )}
        <p className="asked-line">
          <label htmlFor={`${field}o`}>If it is not true</label>
          <select
            id={`${field}o`}
            className="field"
            value={severity}
            onChange={(event) => setSeverity(event.target.value as CheckDocument['severity'])}
          >
            <option value="care">warning</option>
            <option value="stop">problem</option>
          </select>
        </p>
        <p className="asked-line">
          <label htmlFor={`${field}s`}>What to say, and what to do about it</label>
          <textarea
            id={`${field}s`}
            className="field"
            rows={3}
            value={says}
            onChange={(event) => setSays(event.target.value)}
          />
          <span className="quiet">
            A name in braces shows what that cell holds, a length in braces its size in the
            workbook’s units: Knee room is {'{knee_room}'}; {'{24 in}'} is needed.
          </span>
        </p>
        {complaint === undefined ? null : (
          <p className="complaint" role="alert">
            {complaint}
          </p>
        )}
        <p className="actions">
          <button type="submit" className="button button-main">
            Save check
          </button>
          <button type="button" className="button" onClick={onClose}>
            Cancel
          </button>
          {old === undefined ? null : (
            <button
              type="button"
              className="button button-danger"
              onClick={() => {
                const checks = book.document().checks.filter((one) => one.id !== old.id);
                session.apply({ do: 'setChecks', checks });
                onClose();
              }}
            >
              Delete check
            </button>
          )}
        </p>
      </form>
    </Dialog>
  );
}

/** Cells that one rule can be laid on one by one, at the most. */
const MOST_EACH = 60;

/** What a check of the selected cells begins with: the first of them, and where the others are. */
function selectedStart(session: Session) {
  const area = session.areas.at(-1) ?? { top: 0, left: 0, bottom: 0, right: 0 };
  const address = ({ row, column }: Place): string => `${columnName(column)}${row + 1}`;
  const first = { row: area.top, column: area.left };
  const last = { row: area.bottom, column: area.right };
  const all = cellsOf(area) > MOST_EACH ? [first] : placesOf([area]);
  const one = cellsOf(area) === 1;
  // A name says more, but only an address is filled along.
  const name = one ? session.book.cell({ sheet: session.at.sheet, ...first }).name : undefined;
  return {
    formula: `=${name ?? address(first)}<=`,
    cells: one ? address(first) : `${address(first)}:${address(last)}`,
    places: all.map((place) => ({
      down: place.row - first.row,
      across: place.column - first.column,
      address: address(place),
    })),
  };
}

/** A formula whose bare references are those of a sheet: a check stands on none (rule K3). */
function withSheet(formula: string, sheet: string): string {
  let out = '';
  let at = 0;
  for (const { kind, text, start, end } of typedTokens(formula)) {
    const bare = kind === 'reference' && readWritten(text)?.sheet === undefined;
    out += formula.slice(at, start) + (bare ? `${writtenSheet(sheet)}!${text}` : text);
    at = end;
  }
  return out + formula.slice(at);
}

function cellsTrouble(cells: string | undefined): string | undefined {
  if (cells === undefined) return undefined;
  const references = typedTokens(cells).filter(({ kind }) => kind === 'reference');
  return references.length === 1
    ? undefined
    : 'Cells to mark are one cell or one range, such as B4:B9.';
}

function troubleWith(
  book: OpenWorkbook,
  { name, formula, says }: Pick<CheckDocument, 'name' | 'formula' | 'says'>,
): string | undefined {
  if (name.trim() === '') return 'A check needs a name. Type one.';
  if (!/^\s*=\s*\S/.test(formula)) return 'What must be true is a formula and starts with =.';
  if (says.trim() === '') return 'Say what is wrong when it is not true, and what to do about it.';
  const value = book.evaluate(formula.trim());
  if (value.kind === 'error') return value.error.says;
  return value.kind === 'logical'
    ? undefined
    : 'The formula must give true or false: compare two things.';
}

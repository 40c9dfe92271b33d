import type { ToldOut } from '@kerfbook/interchange';
import { fileNameFor } from '@kerfbook/keeping';
import { saveText } from '@kerfbook/workbook';
import { type FormEvent, useEffect, useId, useState } from 'react';
import { Dialog } from '../library/dialog.tsx';
import type { Session } from '../session/session.ts';
import { download } from '../storage/download.ts';
import type { OfficeFormat } from './asked.ts';
import { drawingAlong } from './drawing-along.ts';
import { type OfficeAnswer, OfficeDesk } from './office-desk.ts';
import { ToldList } from './told-list.tsx';
import './office.css';

interface SaveOfficeProps {
  readonly session: Session;
  readonly onClose: () => void;
}

type Kind = 'xlsx' | 'ods' | 'csv';

const KINDS_OF_FILE: readonly (readonly [kind: Kind, means: string])[] = [
  ['xlsx', 'the whole workbook, with its formulas and its drawing'],
  ['ods', 'the same in the other open format (OpenDocument)'],
  ['csv', 'one sheet, rows of plain text'],
];

type Answered = Extract<OfficeAnswer, { readonly is: 'written' }>;

interface Written extends Answered {
  readonly fileName: string;
  /** What became of the drawing; left out where there is none. */
  readonly drawing?: 'goes along' | 'missed';
}

const TYPES = {
  xlsx: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
  ods: 'application/vnd.oasis.opendocument.spreadsheet',
  csv: 'text/csv',
} as const;

/** The workbook, or one of its sheets, as a file that office programs open, and what in it is otherwise than here. */
export default function SaveOffice({ session, onClose }: SaveOfficeProps) {
  const { book } = session;
  const [desk] = useState(() => new OfficeDesk());
  useEffect(() => () => desk.close(), [desk]);
  const [kind, setKind] = useState<Kind>('xlsx');
  const [sheet, setSheet] = useState(session.at.sheet);
  const [formulas, setFormulas] = useState(false);
  const [busy, setBusy] = useState(false);
  const [written, setWritten] = useState<Written>();
  const [refused, setRefused] = useState<string>();
  const name = useId();
  const anew = (): void => {
    setWritten(undefined);
    setRefused(undefined);
  };
  const save = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    if (busy) return;
    anew();
    setBusy(true);
    const to: OfficeFormat =
      kind !== 'csv' ? kind : { csv: sheet, how: formulas ? 'formulas' : 'values' };
    const settled = session.settled();
    const text = saveText(settled.document());
    const { along = {}, isMissed = false } =
      kind === 'csv' ? {} : await drawingAlong(settled, kind);
    const answer = await desk.ask({ do: 'write', text, to, along });
    setBusy(false);
    if (answer.is === 'refused') setRefused(answer.says);
    if (answer.is !== 'written') return;
    const called = book.sheet(sheet)?.name ?? '';
    const title = kind === 'csv' ? `${book.title} ${called}` : book.title;
    const fileName = fileNameFor(title).replace(/\.kerfbook\.json$/, `.${kind}`);
    download(fileName, answer.file, TYPES[kind]);
    const drawing = isMissed ? 'missed' : Object.keys(along).length > 0 ? 'goes along' : undefined;
    setWritten({ ...answer, fileName, ...(drawing === undefined ? {} : { drawing }) });
  };
  return (
    <Dialog title="Save for office programs" className="save-office" onClose={onClose}>
      <form className="take-choices" onSubmit={(event) => void save(event)}>
        <fieldset className="take-into">
          <legend>The file</legend>
          {KINDS_OF_FILE.map(([one, means]) => (
            <label key={one}>
              <input
                type="radio"
                name={name}
                checked={kind === one}
                onChange={() => {
                  anew();
                  setKind(one);
                }}
              />{' '}
              {one}: {means}
            </label>
          ))}
        </fieldset>
        {kind === 'csv' ? (
          <div className="take-head">
            <label>
              Sheet
              <select
                className="field"
                value={sheet}
                onChange={(event) => {
                  anew();
                  setSheet(event.target.value);
                }}
              >
                {book.sheets().map((one) => (
                  <option key={one.id} value={one.id}>
                    {one.name}
                  </option>
                ))}
              </select>
            </label>
            <label>
              Cells
              <select
                className="field"
                value={formulas ? 'formulas' : 'values'}
                onChange={(event) => {
                  anew();
                  setFormulas(event.target.value === 'formulas');
                }}
              >
                <option value="values">as values</option>
                <option value="formulas">as formulas</option>
              </select>
            </label>
          </div>
        ) : null}
        {refused === undefined ? null : (
          <p className="complaint" role="alert">
            {refused}
          </p>
        )}
        <div role="status">{written === undefined ? null : <Report written={written} />}</div>
        <p className="actions">
          <button type="submit" className="button button-main" disabled={busy}>
            {busy ? 'Writing …' : 'Save the file'}
          </button>
          <button type="button" className="button" onClick={onClose}>
            {written === undefined ? 'Cancel' : 'Done'}
          </button>
        </p>
      </form>
    </Dialog>
  );
}

/** What in a file is otherwise than in the workbook, by kind. */
const KINDS: readonly (readonly [kinds: readonly ToldOut['kind'][], says: string])[] = [
  [['frozen'], 'Formulas that stand there as their last value'],
  [['unit'], 'Cells that are shown there in the workbook’s own unit'],
  [['sheet-name', 'name'], 'Sheets and names that are called otherwise there'],
  [['cut', 'list', 'error'], 'What was shortened or written otherwise'],
];

const DRAWINGS = {
  'goes along': ' The drawing is on a sheet of its own, the last one.',
  missed:
    ' This browser could not make the picture of the drawing, so the file has none; an ods file has it.',
} as const;

function Report({ written }: { readonly written: Written }) {
  const { told, formulas, fileName, drawing } = written;
  return (
    <section className="take-told">
      <p>
        <strong>{fileName}</strong> is saved.
        {formulas === undefined
          ? ''
          : ` ${formulas.kept + formulas.writtenOut} formulas go on working there, ${formulas.frozen} stand as their last value.`}
        {drawing === undefined ? '' : DRAWINGS[drawing]}
      </p>
      <ToldList told={told} kinds={KINDS} rest="the sheet at the end of the file lists them." />
    </section>
  );
}

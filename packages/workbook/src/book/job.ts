import {
  type BookDocument,
  type CellDocument,
  type Edit,
  freeName,
  idOf,
  nameKey,
} from '@kerfbook/document';
import type { OpenWorkbook } from '../api.ts';

/** How a job stands, in the order in which it goes. */
export const JOB_STATES = [
  'asked',
  'quoted',
  'accepted',
  'in the shop',
  'delivered',
  'paid',
] as const;

/** One of them. */
export type JobState = (typeof JOB_STATES)[number];

/** The cell that says how a job stands: a workbook that has it is a job. */
export const JOB_STATE = 'job_state';

/** What a workbook says of itself as a job, without anything being worked out. */
export interface JobFacts {
  /** Whom it is for. */
  readonly customer?: string;
  /** The shop's own number of it. */
  readonly number?: string;
  /** The day it is promised for, `2026-11-30`. */
  readonly due?: string;
  /** How it stands; left out where that cannot be read, and `says` tells why. */
  readonly state?: JobState;
  /** What to do about a state that cannot be read. */
  readonly says?: string;
}

/** What a saved workbook says of itself as a job; nothing where it is none. */
export function jobIn(document: BookDocument): JobFacts | undefined {
  const cell = stateCell(document);
  if (cell === undefined) return undefined;
  const { customer, job, due } = document;
  return {
    ...(customer === undefined ? {} : { customer }),
    ...(job === undefined ? {} : { number: job }),
    ...(due === undefined ? {} : { due }),
    ...stateIn(cell),
  };
}

const isState = ({ name }: CellDocument): boolean =>
  name !== undefined && nameKey(name) === nameKey(JOB_STATE);

function stateCell({ sheets }: BookDocument): CellDocument | undefined {
  for (const { rows } of sheets) {
    for (const { cells = {} } of rows) {
      const found = Object.values(cells).find(isState);
      if (found !== undefined) return found;
    }
  }
  return undefined;
}

function stateIn(cell: CellDocument): Pick<JobFacts, 'state' | 'says'> {
  const list = JOB_STATES.join(', ');
  const held = cell.override ?? cell;
  if (cell.formula !== undefined && cell.override === undefined) {
    return { says: `Its state is worked out by a formula; choose one of ${list}.` };
  }
  const text = String(held.value ?? '').trim();
  const state = JOB_STATES.find((one) => one === text.toLowerCase());
  if (state !== undefined) return { state };
  return {
    says:
      text === ''
        ? `It has no state yet; choose one of ${list}.`
        : `"${text}" is no state of a job; choose one of ${list}.`,
  };
}

/** A job begins anew: how the last one stood says nothing of the next. */
export function jobBegun(document: BookDocument): BookDocument {
  if (stateCell(document) === undefined) return document;
  const begun = (cell: CellDocument): CellDocument => {
    if (!isState(cell)) return cell;
    const { override: _typed, typed: _written, ...rest } = cell;
    return rest.formula === undefined ? { ...rest, value: JOB_STATES[0] } : rest;
  };
  const sheets = document.sheets.map((sheet) => ({
    ...sheet,
    rows: sheet.rows.map((row) =>
      row.cells === undefined
        ? row
        : {
            ...row,
            cells: Object.fromEntries(
              Object.entries(row.cells).map(([column, cell]) => [column, begun(cell)]),
            ),
          },
    ),
  }));
  return { ...document, sheets };
}

/** The edit that makes a workbook a job: a sheet with its state. Nothing where it is one. */
export function jobEdit(book: OpenWorkbook): Edit | undefined {
  if (book.find(JOB_STATE) !== undefined) return undefined;
  const sheets = book.sheets();
  const taken = new Set(sheets.map(({ name }) => nameKey(name)));
  return {
    do: 'addSheet',
    at: sheets.length,
    sheet: {
      id: idOf('s', 'job', new Set(sheets.map(({ id }) => id))),
      name: freeName('Job', taken),
      columns: [
        { id: 'c1', width: 160 },
        { id: 'c2', width: 160 },
        { id: 'c3', width: 420 },
      ],
      rows: [
        { id: 'r1', cells: { c1: { value: 'Job', role: 'heading' } } },
        {
          id: 'r2',
          cells: {
            c1: { value: 'State' },
            c2: {
              value: JOB_STATES[0],
              quantity: 'text',
              role: 'input',
              name: JOB_STATE,
              allow: { list: [...JOB_STATES] },
              remark: 'How the job stands. The list of jobs shows it, and changes it here.',
            },
            c3: {
              value:
                'Customer, job number and due date stand under the name of the workbook: "Name, customer, dates".',
              role: 'note',
            },
          },
        },
      ],
    },
  };
}

/** The edit that says how a job stands from now on; nothing where it stands so, or the workbook is no job. */
export function jobStateEdit(book: OpenWorkbook, state: JobState): Edit | undefined {
  const at = book.find(JOB_STATE);
  if (at === undefined) return undefined;
  const value = book.value(at);
  if (value.kind === 'text' && value.text === state) return undefined;
  const { sheet, row, column } = at;
  return { do: 'enter', sheet, cells: [{ row, column, text: state }] };
}

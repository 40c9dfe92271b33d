import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { drawingForFiles } from '@kerfbook/drawing';
import { functionNames, ourFunction } from '@kerfbook/functions';
import { importFile, writeOds, writeXlsx } from '@kerfbook/interchange';
import { type CellValue, loadText, Workbook } from '@kerfbook/workbook';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { changesOf, followingOf, typeInto } from '../scripts/following.mjs';
import { type JudgedCell, type Judgement, judge, whyNoJudge } from './judge.ts';
import { openTemplate, TEMPLATES } from './templates.ts';

/**
 * Files of ours before a program that none of us wrote: LibreOffice opens them, works every formula out anew, and its
 * values are held against the workbook's. Where it is not installed this is left out, and the log says so.
 */

/** Two programs add up in other orders: all but the last digits must be the same. */
const near = (one: number, other: number): boolean =>
  Math.abs(one - other) <= 1e-9 * Math.max(1, Math.abs(one), Math.abs(other));

function agrees(ours: CellValue, [, , , kind, value]: JudgedCell): boolean {
  switch (ours.kind) {
    case 'number':
      return kind === 'number' && near(ours.number, Number(value));
    case 'logical':
      return kind === 'number' && Number(value) === (ours.logical ? 1 : 0);
    case 'text':
      return kind === 'text' && value === ours.text;
    case 'error':
      return kind === 'error';
    case 'empty':
      return kind === 'text' && value === '';
  }
}

interface Disagreement {
  readonly where: string;
  readonly ours: CellValue;
  readonly judge: JudgedCell;
}

/** Every cell of the workbook's own sheets, held against the judge's. */
function compared(book: Workbook, cells: readonly JudgedCell[]) {
  const ids = new Map(book.sheets().map(({ name, id }) => [name, id]));
  const wrong: Disagreement[] = [];
  let values = 0;
  let formulas = 0;
  for (const one of cells) {
    const [sheet, row, column, , , formula] = one;
    const id = ids.get(sheet);
    if (id === undefined) continue;
    // Words that are none look like an empty cell.
    if (one[4] !== '') values += 1;
    if (formula !== null) formulas += 1;
    const ours = book.value({ sheet: id, row, column });
    if (!agrees(ours, one))
      wrong.push({ where: `${sheet} ${row + 1} ${column + 1}`, ours, judge: one });
  }
  return { values, formulas, wrong };
}

/** Cells with something in them, as the workbook has it. */
function filled(book: Workbook): number {
  let count = 0;
  for (const { id, rows, columns } of book.sheets()) {
    for (let row = 0; row < rows; row += 1) {
      for (let column = 0; column < columns; column += 1) {
        const value = book.value({ sheet: id, row, column });
        if (value.kind !== 'empty' && !(value.kind === 'text' && value.text === '')) count += 1;
      }
    }
  }
  return count;
}

/** What differs in a file that the judge itself saved, once it is taken in here. */
function backFrom(book: Workbook, bytes: Uint8Array, ending: string): readonly string[] {
  const read = importFile(bytes, `saved.${ending}`);
  if (!read.ok) throw new Error(read.says);
  const back = Workbook.open(read.document);
  const ids = new Map(back.sheets().map(({ name, id }) => [name, id]));
  const different: string[] = [];
  for (const { id, name, rows, columns } of book.sheets()) {
    const there = ids.get(name);
    if (there === undefined) different.push(`there is no sheet ${name}`);
    else {
      for (let at = 0; at < rows * columns; at += 1) {
        const place = { row: Math.floor(at / columns), column: at % columns };
        const ours = book.value({ sheet: id, ...place });
        const theirs = back.value({ sheet: there, ...place });
        if (!alike(ours, theirs)) {
          different.push(
            `${name} ${place.row + 1} ${place.column + 1}: ${JSON.stringify([ours, theirs])}`,
          );
        }
      }
    }
  }
  const names = new Set(back.names().map((one) => one.name));
  for (const one of book.names())
    if (!names.has(one.name)) different.push(`there is no name ${one.name}`);
  return different;
}

function alike(one: CellValue, other: CellValue): boolean {
  const isBlank = (value: CellValue): boolean =>
    value.kind === 'empty' || (value.kind === 'text' && value.text === '');
  if (isBlank(one)) return isBlank(other);
  if (one.kind === 'number' && other.kind === 'number') return near(one.number, other.number);
  if (one.kind === 'logical' && other.kind === 'number')
    return other.number === Number(one.logical);
  if (one.kind === 'error') return other.kind === 'error';
  return JSON.stringify(one) === JSON.stringify(other);
}

const keyOf = (sheet: string, row: number, column: number): string => `${sheet} ${row} ${column}`;

/** How many of the results that move in the workbook move to the same in the judge. */
function followed(
  book: Workbook,
  changes: readonly Readonly<Record<string, number>>[],
  told: Judgement,
) {
  const counts = { moved: 0, same: 0 };
  const first = new Map(told.cells.map((one) => [keyOf(one[0], one[1], one[2]), one]));
  const formulas = formulaPlaces(book);
  const before = formulas.map(({ at }) => JSON.stringify(book.value(at)));
  for (const [number, change] of changes.entries()) {
    typeInto(book, change);
    const after = new Map(first);
    for (const one of told.after[number] ?? []) after.set(keyOf(one[0], one[1], one[2]), one);
    for (const [which, { at, sheet }] of formulas.entries()) {
      const ours = book.value(at);
      if (JSON.stringify(ours) === before[which]) continue;
      counts.moved += 1;
      const one = after.get(keyOf(sheet, at.row, at.column));
      if (one !== undefined && agrees(ours, one)) counts.same += 1;
    }
    for (const _ of Object.keys(change)) book.undo();
  }
  return counts;
}

function formulaPlaces(book: Workbook) {
  return book.sheets().flatMap(({ id, name, rows, columns }) =>
    Array.from({ length: rows * columns }, (_, at) => ({
      sheet: name,
      at: { sheet: id, row: Math.floor(at / columns), column: at % columns },
    })).filter(({ at }) => book.cell(at).formula !== undefined),
  );
}

const why = whyNoJudge();

describe('the judge', () => {
  it('that is not here is missed, with what would install it, and the log says so', () => {
    if (why !== undefined)
      console.log(`Files that go out are not held against another program: ${why}.`);
    expect(whyNoJudge('no-such-office')).toContain('apt-get install libreoffice-calc-nogui');
  });
});

const withJudge = why === undefined ? describe : () => undefined;

/** Both formats: how they are written, and what the judge calls them. */
const FORMATS = [
  { ending: 'xlsx', write: writeXlsx, filter: 'Calc MS Excel 2007 XML' },
  { ending: 'ods', write: writeOds, filter: 'calc8' },
] as const;

withJudge('files of every template, worked out by LibreOffice', () => {
  it.each(FORMATS)(
    'come to the same in every cell as $ending, and follow changes of inputs where their formulas went along',
    ({ ending, write, filter }) => {
      const folder = mkdtempSync(join(tmpdir(), 'kerfbook-judge-'));
      try {
        const jobs = TEMPLATES.map((name) => {
          const book = openTemplate(name);
          const path = join(folder, `${name}.${ending}`);
          const { bytes, told } = write(book);
          writeFileSync(path, bytes);
          return {
            name,
            book,
            path,
            save: join(folder, `${name}-saved.${ending}`),
            inputs: changesOf(book),
            follow: followingOf(book, told).follow,
          };
        });
        const answers = judge(
          jobs.map(({ path, inputs, save }) => ({ path, inputs, save, filter })),
        );
        let all = 0;
        let formulas = 0;
        const moves = { moved: 0, same: 0 };
        for (const [at, { name, book, inputs, save, follow }] of jobs.entries()) {
          const told = answers[at];
          if (told === undefined) throw new Error(`nothing was answered of ${name}`);
          const found = compared(book, told.cells);
          expect(found.wrong, name).toEqual([]);
          expect(found.values, name).toBe(filled(book));
          expect(backFrom(book, readFileSync(save), ending), name).toEqual([]);
          const moved = followed(book, inputs, told);
          console.log(
            `${name}.${ending}: ${found.values} cells the same, ${found.formulas} of them worked out there; ${inputs.length} inputs changed, ${moved.same} of ${moved.moved} results that moved came to the same`,
          );
          // By chance a value may be the same that stands still; what is said to follow does.
          expect(moved.same, name).toBeGreaterThanOrEqual(follow);
          all += found.values;
          formulas += found.formulas;
          moves.moved += moved.moved;
          moves.same += moved.same;
        }
        console.log(
          `As ${ending} in all ${all} cells compared, ${formulas} of them worked out there; ${moves.same} of ${moves.moved} results followed.`,
        );
        expect(formulas).toBeGreaterThan(2000);
        // Fewer than three quarters would mean that forms of our functions were lost.
        expect(moves.same / moves.moved).toBeGreaterThan(0.75);
      } finally {
        rmSync(folder, { recursive: true, force: true });
      }
    },
  );

  it.each(FORMATS)(
    'know every function that goes along in $ending by the name that is written',
    ({ ending, write }) => {
      const names = functionNames().filter((name) => ourFunction(name) === undefined);
      const loaded = loadText(
        JSON.stringify({
          kerfbook: 8,
          title: 'Functions',
          units: 'us',
          sheets: [
            {
              id: 's1',
              name: 'Functions',
              columns: [{ id: 'c1' }, { id: 'c2' }],
              rows: names.map((name, at) => ({
                id: `r${at + 1}`,
                cells: { c1: { value: name }, c2: { formula: `=${name}(2,1)` } },
              })),
            },
          ],
          checks: [],
          tables: [],
        }),
      );
      if (!loaded.ok) throw new Error(loaded.says);
      const folder = mkdtempSync(join(tmpdir(), 'kerfbook-judge-'));
      try {
        const path = join(folder, `functions.${ending}`);
        writeFileSync(path, write(Workbook.open(loaded.document)).bytes);
        const [told] = judge([{ path }]);
        const formulas = (told?.cells ?? []).filter(
          ([sheet, , column, , , formula]) =>
            sheet === 'Functions' && column === 1 && formula !== null,
        );
        expect(formulas.length).toBeGreaterThan(250);
        const unknown = formulas
          .filter(([, , , kind, value]) => kind === 'error' && value === NO_SUCH_NAME)
          .map(([, row]) => names[row]);
        expect(unknown.sort().join(' ')).toBe(NOT_KNOWN_THERE[ending]);
      } finally {
        rmSync(folder, { recursive: true, force: true });
      }
    },
  );
});

withJudge('drawings, shown by LibreOffice', () => {
  it('stand on the last sheet as large as a page across takes them', async () => {
    const book = openTemplate('dining-table');
    const background = '#a86432';
    const picture = await sharp({ create: { width: 400, height: 100, channels: 3, background } })
      .png()
      .toBuffer();
    const drawing = drawingForFiles(book);
    if (drawing === undefined) throw new Error('there is no drawing');
    const folder = mkdtempSync(join(tmpdir(), 'kerfbook-judge-'));
    try {
      const paths = ['xlsx', 'ods'].map((ending) => join(folder, `drawn.${ending}`));
      const [xlsx = '', ods = ''] = paths;
      writeFileSync(xlsx, writeXlsx(book, { picture }).bytes);
      writeFileSync(ods, writeOds(book, { drawing }).bytes);
      const shown = judge(paths.map((path) => ({ path }))).map(({ pictures }) =>
        // It reckons in whole 1/100 mm.
        pictures.map(([sheet, width, height]) => [
          sheet,
          Math.round(width / 10),
          Math.round(height / 10),
        ]),
      );
      // In mm, 250 by 62.5, and 940 by 640 drawn 170 high.
      expect(shown).toEqual([
        [['Drawing', 2500, 625]],
        [['Drawing', Math.round((1700 * 940) / 640), 1700]],
      ]);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });
});

/** The judge's number of the error of a name that it does not know. */
const NO_SUCH_NAME = 525;
/**
 * XLOOKUP is later than Debian's LibreOffice. The others have the prefix of later functions (MS-XLSX, 2.2.2), which it
 * does not take off them in xlsx files; in ods files it knows them.
 */
const NOT_KNOWN_THERE = {
  xlsx: 'IMCOSH IMCOT IMCSC IMCSCH IMSEC IMSECH IMSINH IMTAN XLOOKUP',
  ods: 'XLOOKUP',
} as const;

import { readFileSync } from 'node:fs';
import { takenApart, withVersions } from '@kerfbook/keeping/shelf';
import { type At, type BookDocument, loadText, saveText, Workbook } from '@kerfbook/workbook';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fullSpecimen } from './full-specimen.ts';
import { mutation } from './mutants.ts';
import { specimen } from './specimen.ts';
import { patience, seedOf, times } from './times.ts';

const template = readFileSync(
  new URL('../../templates/dining-table.json', import.meta.url),
  'utf8',
);

/** One sentence or two for a person; what it quotes of the file may be anything. */
function expectSentence(says: string): void {
  expect(says.length).toBeGreaterThan(19);
  expect(says.length).toBeLessThan(1000);
  expect(says).toMatch(/[.?]$/);
  expect(says).not.toMatch(/\[object |TypeError|RangeError/);
}

/** Cells that are looked at in one sheet, at the most. */
const MOST = 60;

function* cellsOf(book: Workbook): Generator<At> {
  for (const { id, rows, columns } of book.sheets()) {
    for (let row = 0; row < Math.min(rows, MOST); row += 1) {
      for (let column = 0; column < Math.min(columns, 8); column += 1) {
        yield { sheet: id, row, column };
      }
    }
  }
}

/** Everything a screen asks of a workbook; the values, to be compared. */
function readAll(book: Workbook): string {
  const values: unknown[] = [];
  for (const at of cellsOf(book)) {
    const { value, shown, entry } = book.cell(at);
    if (value.kind === 'number') expect(Number.isFinite(value.number)).toBe(true);
    if (value.kind === 'error') expectSentence(value.error.says);
    expect(typeof shown.text).toBe('string');
    values.push([value, entry]);
  }
  values.push(book.checks(), book.names(), book.tables(), book.problems());
  book.clashes();
  book.checkClashes();
  book.checkForms();
  return JSON.stringify(values);
}

function explainSome(book: Workbook, seed: number): void {
  const cells = [...cellsOf(book)];
  for (let i = 0; i < Math.min(4, cells.length); i += 1) {
    const at = cells[(seed + i * 7) % cells.length];
    if (at === undefined) continue;
    book.explain(at);
    book.usedBy(at);
  }
}

/** An edit, taken back: the same bytes again. Where it is refused, nothing was changed. */
function changeAndBack(book: Workbook, seed: number): void {
  const before = saveText(book.document());
  const sheet = book.sheets()[seed % book.sheets().length];
  if (sheet === undefined) return;
  const row = seed % Math.min(sheet.rows + 1, 5);
  const edits = [
    { do: 'enter', sheet: sheet.id, cells: [{ row, column: seed % 3, text: '12' }] },
    { do: 'insertRows', sheet: sheet.id, at: Math.min(row, sheet.rows), rows: [{ id: 'zz9' }] },
    { do: 'deleteRows', sheet: sheet.id, at: 0, count: 1 },
    { do: 'removeSheet', sheet: sheet.id },
    { do: 'renameSheet', sheet: sheet.id, name: 'Another name' },
  ] as const;
  const edit = edits[seed % edits.length];
  if (edit === undefined) return;
  const result = book.apply(edit);
  if (result.ok) {
    readAll(book);
    book.undo();
  } else if (!book.locked) expectSentence(result.says);
  expect(saveText(book.document())).toBe(before);
}

/** Refused with a sentence, or opened so that everything works and nothing is lost on the way. */
function judge(text: string, seed: number): 'refused' | 'opened' {
  const loaded = loadText(text);
  if (!loaded.ok) {
    expectSentence(loaded.says);
    return 'refused';
  }
  // What is kept of the file is all that was in it, in one order; of an older one, in today's words.
  if (loaded.migration === undefined) {
    expect(sorted(loaded.document)).toEqual(sorted(JSON.parse(text.replace(/^\uFEFF/, ''))));
  }
  const book = Workbook.open(loaded.document);
  const values = readAll(book);
  explainSome(book, seed);
  const saved = saveText(book.document());
  const again = loadText(saved);
  if (!again.ok) throw new Error(`it was opened, and its saved text is not: ${again.says}`);
  const reopened = Workbook.open(again.document);
  expect(saveText(reopened.document())).toBe(saved);
  expect(readAll(reopened)).toBe(values);
  changeAndBack(book, seed);
  return 'opened';
}

/** With keys in one order, for what JSON says twice to be compared. */
function sorted(value: unknown): string {
  return JSON.stringify(value, (_, part: unknown) =>
    typeof part === 'object' && part !== null && !Array.isArray(part)
      ? Object.fromEntries(Object.entries(part).sort(([a], [b]) => (a < b ? -1 : 1)))
      : part,
  );
}

/** The words of the first version of the format for those of today. */
const FORMER = {
  style: 'look',
  bold: 'strong',
  italic: 'slanted',
  background: 'ground',
  severity: 'otherwise',
  frozenColumns: 'frozen',
};

/** A saved text as the first version of the format would have it, but for what words alone do not tell. */
function ofFirstVersion(text: string): string {
  return Object.entries(FORMER).reduce(
    (now, [today, former]) => now.replaceAll(`"${today}":`, `"${former}":`),
    text.replace('"kerfbook": 8', '"kerfbook": 1'),
  );
}

const today = [saveText(specimen()), saveText(fullSpecimen())];
const small = [...today, ...today.map(ofFirstVersion)];
const earlier = (document: BookDocument) => [
  { at: 1_700_000_000_000, name: 'As ordered', text: saveText({ ...document, title: 'Earlier' }) },
  { at: 1_600_000_000_000, text: saveText(specimen()) },
];
const files = fc.oneof(
  { weight: 49, arbitrary: fc.constantFrom(...small) },
  { weight: 1, arbitrary: fc.constant(template) },
);
const file = fc.record({
  text: files,
  changes: fc.array(mutation, { minLength: 1, maxLength: 3 }),
  seed: fc.nat({ max: 1000 }),
});

const AT_ONCE = 40;
let turns = 0;
/** Lets the runner be heard in between. */
async function turn(): Promise<void> {
  turns += 1;
  if (turns % AT_ONCE === 0) await new Promise((resolve) => setImmediate(resolve));
}

describe('files with something changed in them', () => {
  it('the files themselves open soundly', () => {
    for (const text of [...small, template]) {
      for (let seed = 0; seed < 5; seed += 1) expect(judge(text, seed)).toBe('opened');
    }
  });

  it('of the first version are no others, in words of their own', () => {
    for (const text of today) {
      const [now, former] = [text, ofFirstVersion(text)].map(loadText);
      expect(former).toMatchObject({ migration: { from: 1 } });
      if (now?.ok && former?.ok) expect(sorted(former.document)).toBe(sorted(now.document));
    }
    expect(small[3]).toContain('"strong": true');
  });

  // Found by chance: a file of today that says it is of the first version opens as it stands.
  it.each([1, 2])('with the number of version %d open soundly', (version) => {
    for (const text of today) {
      expect(judge(text.replace('"kerfbook": 8', `"kerfbook": ${version}`), 1)).toBe('opened');
    }
  });

  // What was found by chance and mended.
  it.each([
    '=1E-$[c2.r1]',
    "=1E-$'Seat'!B1",
    '=SPECIFIC_½RAVITY(seat_width)',
    '=Nowhere!B4+Nowhere!B4',
    '=SUM(A1:A3)[',
  ])('a formula that was trouble: %s', (formula) => {
    for (let seed = 0; seed < 10; seed += 1) {
      const document = specimen();
      const cells = document.sheets[0]?.rows[0]?.cells;
      if (cells === undefined) throw new Error('the specimen has no first row');
      cells.c1 = { formula };
      expect(judge(JSON.stringify(document), seed)).toBe('opened');
    }
  });

  it(
    'are refused with a sentence or open soundly',
    async () => {
      const seen = { refused: 0, opened: 0 };
      await fc.assert(
        fc.asyncProperty(file, async ({ text, changes, seed }) => {
          await turn();
          seen[
            judge(
              changes.reduce((now, change) => change(now), text),
              seed,
            )
          ] += 1;
        }),
        { numRuns: times(450), ...seedOf(20_261_128) },
      );
      // The test is worth something only while both ends are reached.
      expect(seen.refused).toBeGreaterThan(times(100));
      expect(seen.opened).toBeGreaterThan(times(100));
    },
    patience(300_000),
  );

  it(
    'that hold earlier versions are taken apart, and what cannot be read is counted',
    async () => {
      const whole = withVersions(small[1] ?? '', earlier(fullSpecimen()));
      expect(takenApart(whole)).toMatchObject({ lost: 0, versions: [{ name: 'As ordered' }, {}] });
      const seen = { apart: 0, lost: 0 };
      await fc.assert(
        fc.asyncProperty(fc.array(mutation, { minLength: 1, maxLength: 2 }), async (changes) => {
          await turn();
          const text = changes.reduce((now, change) => change(now), whole);
          const apart = takenApart(text);
          if (apart === undefined) {
            const loaded = loadText(text);
            if (!loaded.ok) expectSentence(loaded.says);
            return;
          }
          seen.apart += 1;
          seen.lost += apart.lost > 0 ? 1 : 0;
          for (const { at, text: state } of apart.versions) {
            expect(Number.isNaN(new Date(at).getTime())).toBe(false);
            expect(loadText(state).ok).toBe(true);
          }
          const loaded = loadText(apart.text);
          if (!loaded.ok) expectSentence(loaded.says);
        }),
        { numRuns: times(50), ...seedOf(20_261_128) },
      );
      expect(seen.apart).toBeGreaterThan(times(10));
    },
    patience(300_000),
  );
});

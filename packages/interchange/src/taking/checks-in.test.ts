import { loadValue, Workbook } from '@kerfbook/workbook';
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { importFile } from '../import-file.ts';
import { writeOds } from '../ods/write.ts';
import { writeXlsx } from '../xlsx/write.ts';

/** A file of ours with two checks, its content changed. */
function changed(change: (content: string) => string) {
  const loaded = loadValue({
    kerfbook: 8,
    title: 'Checked',
    units: 'us',
    sheets: [
      {
        id: 's1',
        name: 'Sizes',
        columns: [{ id: 'c1' }],
        rows: [{ id: 'r1', cells: { c1: { value: 60, name: 'bench_length' } } }],
      },
    ],
    checks: [
      {
        id: 'k1',
        name: 'Long enough',
        sheet: 's1',
        formula: '=bench_length>20',
        severity: 'care',
        says: 'It is {bench_length} long.',
        cells: '=[c1.r1]',
      },
      {
        id: 'k2',
        name: 'Not too long',
        formula: '=[s1!c1.r1]<50',
        severity: 'stop',
        says: 'It is too long.',
      },
    ],
    tables: [],
  });
  if (!loaded.ok) throw new Error(loaded.says);
  const parts = unzipSync(writeOds(Workbook.open(loaded.document)).bytes);
  const content = change(strFromU8(parts['content.xml'] ?? new Uint8Array()));
  const read = importFile(zipSync({ ...parts, 'content.xml': strToU8(content) }), 'x.ods');
  if (!read.ok) throw new Error(read.says);
  return read;
}

describe('checks of a file of ours', () => {
  it('are checks again, with their sentences and the cells that bear their sign', () => {
    const { document, told } = changed((content) => content);
    expect(document.checks).toEqual([
      {
        id: 'k1',
        name: 'Long enough',
        sheet: 's1',
        formula: '=bench_length>20',
        severity: 'care',
        says: 'It is {bench_length} long.',
        cells: '=A1',
      },
      {
        id: 'k2',
        name: 'Not too long',
        formula: '=Sizes!A1<50',
        severity: 'stop',
        says: 'It is too long.',
      },
    ]);
    expect(told.map(({ kind }) => kind)).toEqual(['sheet']);
  });

  it.each([
    ['bench_length&gt;20<', 'NOTHERE(1)<', 'cannot be read as a formula'],
    ['>care<', '>worse<', 'warning or a problem'],
    ['It is {bench_length} long.', '', 'no sentence'],
    ['It is {bench_length} long.', 'x'.repeat(9000), 'no sentence'],
  ])('that say %s otherwise are left out, and told', (what, instead, says) => {
    const { document, told } = changed((content) => content.replace(what, instead));
    expect(document.checks.map(({ name }) => name)).toEqual(['Not too long']);
    expect(told.find(({ kind }) => kind === 'check')).toMatchObject({
      of: 'Check "Long enough"',
      says: expect.stringContaining(says),
    });
  });

  it('are told where they hold here and not in the file', () => {
    const { told } = changed((content) =>
      content.replace('office:boolean-value="true"', 'office:boolean-value="false"'),
    );
    expect(told).toContainEqual({
      kind: 'differs',
      of: 'Check "Long enough"',
      says: 'It holds here; in the file it does not hold.',
    });
  });

  it('whose heads were changed are rows that nobody reads', () => {
    const { document } = changed((content) => content.replace('What must hold', 'What may hold'));
    expect(document.checks).toEqual([]);
  });
});

describe('sheets of a maker that are called as those that files of ours add', () => {
  it.each([['Checks'], ['Lists'], ['About this file'], ['Checks', 'Lists', 'About this file']])(
    'come back (%s %s %s)',
    (...names: readonly string[]) => {
      const loaded = loadValue({
        kerfbook: 8,
        title: 'Called so',
        units: 'us',
        sheets: names.map((name, at) => ({
          id: `s${at + 1}`,
          name,
          columns: [{ id: 'c1' }],
          rows: [{ id: 'r1', cells: { c1: { value: `of ${name}` } } }],
        })),
        checks: [],
        tables: [],
      });
      if (!loaded.ok) throw new Error(loaded.says);
      for (const write of [writeOds, writeXlsx]) {
        const read = importFile(write(Workbook.open(loaded.document)).bytes, 'x');
        if (!read.ok) throw new Error(read.says);
        expect(read.document.sheets.map(({ name }) => name)).toEqual(names);
      }
    },
  );
});

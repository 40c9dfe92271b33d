import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { jsonSchemaText } from '../format/json-schema.ts';
import { saveText } from '../format/save.ts';
import { DOCUMENT_VERSION } from '../format/schema.ts';
import { documentOf } from '../testing/sample.ts';
import { loadText } from './load.ts';

const sample = documentOf({
  sheets: {
    Brief: [
      [
        { value: 'Length', role: 'heading' },
        { value: 84, quantity: 'length', name: 'top_length' },
      ],
      [],
      ['Half', '=top_length/2'],
    ],
    Base: [[{ allow: { max: 3, min: 1 }, formula: '=[s1!c2.r1]', override: { value: 80 } }]],
  },
  checks: [{ id: 'k1', name: 'Long', formula: '=top_length>1', severity: 'care', says: 'Short.' }],
});

const spoil = (change: (document: Record<string, unknown>) => void): string => {
  const copy = structuredClone(sample) as unknown as Record<string, unknown>;
  change(copy);
  return JSON.stringify(copy);
};

/** Where the published schema of a version lies. */
const schemaFile = (version: number): URL =>
  new URL(`../../schema/kerfbook-${version}.schema.json`, import.meta.url);

/** Signs of what each version takes. Only the sign of one that no app has gone out with may be made anew. */
const SIGNS: Readonly<Record<string, string>> = {
  2: 'ee1956f4100d2f28',
  3: '4b92e0a1138eb8e0',
  4: '884651f0354c21a4',
  5: '6b4c3e4f776258eb',
  6: '0735801094dcab4d',
  7: 'a37f3732fbae8f2e',
  8: '1218cfe4b5a81dd8',
};

describe('a document', () => {
  it('D1 loads what was saved', () => {
    const loaded = loadText(saveText(sample));
    expect(loaded).toEqual({ ok: true, document: sample });
  });

  it.each([
    ['empty text', '', 'D1'],
    ['something else than JSON', '<html>', 'D1'],
    ['a cut file', saveText(sample).slice(0, 90), 'D1'],
    ['JSON of another kind', '{"name":"x"}', 'D2'],
    ['a list', '[1]', 'D2'],
    ['null', 'null', 'D2'],
    ['a version that is no number', '{"kerfbook":"one"}', 'D6'],
    [
      'no sheets',
      '{"kerfbook":8,"title":"x","units":"us","sheets":[],"checks":[],"tables":[]}',
      'D4',
    ],
  ])('D1 refuses %s with one sentence', (_, text, code) => {
    const loaded = loadText(text);
    expect(loaded).toMatchObject({ ok: false, code });
    expect(!loaded.ok && loaded.says).toMatch(/^[A-Z"].*\.$/s);
  });

  it.each([
    ['an unknown key', (d: never) => Object.assign(d, { macro: 1 })],
    ['two sheets with one id', (d: { sheets: { id: string }[] }) => (d.sheets[1]!.id = 's1')],
    [
      'two sheets with one name',
      (d: { sheets: { name: string }[] }) => (d.sheets[1]!.name = 'BRIEF'),
    ],
    [
      'a sheet name with a meaning',
      (d: { sheets: { name: string }[] }) => (d.sheets[1]!.name = 'a!b'),
    ],
    [
      'two rows with one id',
      (d: { sheets: { rows: { id: string }[] }[] }) => (d.sheets[0]!.rows[1]!.id = 'r1'),
    ],
    [
      'a cell in no column',
      (d: { sheets: { rows: { cells: object }[] }[] }) =>
        (d.sheets[0]!.rows[0]!.cells = { c9: {} }),
    ],
    [
      'a name twice',
      (d: { sheets: { rows: { cells: object }[] }[] }) =>
        (d.sheets[1]!.rows[0]!.cells = { c1: { name: 'TOP_length' } }),
    ],
    [
      'a name that is an address',
      (d: { sheets: { rows: { cells: object }[] }[] }) =>
        (d.sheets[1]!.rows[0]!.cells = { c1: { name: 'Leg1' } }),
    ],
    ['a check on no sheet', (d: { checks: { sheet: string }[] }) => (d.checks[0]!.sheet = 's7')],
    [
      'a table without its rows',
      (d: never) =>
        Object.assign(d, {
          tables: [{ id: 't', kind: 'parts', sheet: 's1', header: 'r9', last: 'r9' }],
        }),
    ],
  ])('D1 refuses %s and says where', (_, change) => {
    const loaded = loadText(spoil(change as never));
    expect(loaded).toMatchObject({ ok: false, code: 'D4' });
    expect(!loaded.ok && loaded.says).toMatch(/^The workbook is damaged at .+: .+\.$/);
  });

  it('D1 answers any text without throwing', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.json()), (text) => {
        expect(loadText(text).ok).toBe(false);
      }),
    );
  });

  it('D1 is not fooled by keys that reach into prototypes', () => {
    const loaded = loadText(saveText(sample).replace('"c1"', '"__proto__"'));
    expect(loaded.ok).toBe(false);
    expect(({} as Record<string, unknown>).value).toBeUndefined();
  });

  it('D2 writes one row a line and the same bytes again', () => {
    const text = saveText(sample);
    expect(text.split('\n')).toContain(
      '        { "id": "r1", "cells": { "c1": { "value": "Length", "role": "heading" }, "c2": { "value": 84, "quantity": "length", "name": "top_length" } } },',
    );
    const loaded = loadText(text);
    expect(loaded.ok && saveText(loaded.document)).toBe(text);
  });

  it('D2 writes keys in one order, whatever order they came in', () => {
    expect(saveText(sample)).toContain(
      '{ "formula": "=[s1!c2.r1]", "override": { "value": 80 }, "allow": { "min": 1, "max": 3 } }',
    );
  });

  it('D5 takes a due date that the calendar has, and keeps whom a workbook is for', () => {
    const head = {
      customer: 'A made-up family',
      job: '26-014',
      revision: 'B',
      terms: 'On delivery.',
    };
    const loaded = loadText(spoil((d) => Object.assign(d, { ...head, due: '2028-02-29' })));
    expect(loaded).toMatchObject({ ok: true, document: { ...head, due: '2028-02-29' } });
    expect(loaded.ok && saveText(loaded.document)).toContain(
      '  "customer": "A made-up family",\n  "job": "26-014",\n  "due": "2028-02-29",\n',
    );
    for (const due of ['2026-02-29', '2026-13-01', '14 March', '26-3-14', '']) {
      const refused = loadText(spoil((d) => Object.assign(d, { due })));
      expect([due, refused.ok, !refused.ok && refused.says]).toEqual([
        due,
        false,
        expect.stringContaining('it should be a day of the calendar, year first'),
      ]);
    }
  });

  it('D3 refuses a newer version and says that it is newer', () => {
    const loaded = loadText(spoil((d) => Object.assign(d, { kerfbook: 9 })));
    expect(loaded).toMatchObject({ ok: false, code: 'D3' });
    expect(!loaded.ok && loaded.says).toContain('newer Kerfbook');
  });

  it.each([
    ['tags', { tags: ['bench', 'oak, white'] }, true],
    ['a tag of nothing', { tags: [''] }, false],
    ['a tag with a space behind it', { tags: ['oak '] }, false],
    ['thirteen tags', { tags: Array.from({ length: 13 }, (_, i) => `t${i}`) }, false],
    ['a lineage of before', { lineage: { template: 'Bench', revision: 1 } }, true],
    [
      'a whole lineage',
      {
        lineage: {
          template: 'Bench',
          revision: 2,
          key: 'dining-table',
          base: '0'.repeat(64),
          text: 'AbC+/9==',
        },
      },
      true,
    ],
    [
      'a sign that is none',
      { lineage: { template: 'B', revision: 1, base: 'F'.repeat(64) } },
      false,
    ],
    ['a day on which a price was agreed', { agreed: '2026-03-14' }, true],
    ['a day that the calendar has not', { agreed: '2026-02-30' }, false],
    [
      'a letterhead',
      {
        letterhead: {
          name: 'A made-up shop',
          address: 'Mill Lane 4\nAny Town',
          tax: '00-0000000',
          logo: 'data:image/png;base64,AbC+/9==',
        },
      },
      true,
    ],
    ['a logo from elsewhere', { letterhead: { logo: 'https://example.com/logo.png' } }, false],
    ['a logo that may hold a script', { letterhead: { logo: 'data:image/svg+xml,x' } }, false],
    [
      'a logo that is too large',
      { letterhead: { logo: `data:image/png;base64,${'A'.repeat(32_768)}` } },
      false,
    ],
    [
      'a plan for others',
      {
        guide: {
          title: 'A bench for anyone',
          before: 'Read it all before the first cut.',
          inputs: ['top_length'],
          hides: ['costs'],
          tone: 'walnut',
          language: 'en',
          second: 'de-AT',
          published: { number: 2, day: '2026-03-14', text: 'AbC+/9==' },
        },
        photos: {
          'glue-up': { says: 'Clamps on both faces', data: 'data:image/jpeg;base64,AbC=' },
        },
      },
      true,
    ],
    [
      'a photograph from elsewhere',
      { photos: { a: { data: 'https://example.com/a.jpg' } } },
      false,
    ],
    [
      'a photograph with an odd name',
      { photos: { 'A b': { data: 'data:image/png;base64,AbC=' } } },
      false,
    ],
    ['a language that is none', { guide: { second: 'deutsch sprechen' } }, false],
    ['a color of another house', { guide: { tone: '#ff0000' } }, false],
    ['a text that is no base64', { lineage: { template: 'B', revision: 1, text: 'a b' } }, false],
  ])('D6 takes or refuses %s', (_, set, takes) => {
    const loaded = loadText(spoil((d) => Object.assign(d, set)));
    expect(loaded.ok).toBe(takes);
    if (loaded.ok) expect(loadText(saveText(loaded.document))).toEqual(loaded);
    else expect(loaded.code).toBe('D4');
  });

  it('D4 the published JSON Schema is the one the code makes', () => {
    const file = schemaFile(DOCUMENT_VERSION);
    if (process.env.KERFBOOK_WRITE_SCHEMA !== undefined) writeFileSync(file, jsonSchemaText());
    expect(readFileSync(file, 'utf8')).toBe(jsonSchemaText());
  });

  it('D4 what a version takes stays, and whatever takes more is the next version', () => {
    const signs = Object.fromEntries(
      Object.keys(SIGNS).map((version) => [
        version,
        createHash('sha256')
          .update(readFileSync(schemaFile(Number(version))))
          .digest('hex')
          .slice(0, 16),
      ]),
    );
    expect(signs).toEqual(SIGNS);
    expect(Math.max(...Object.keys(SIGNS).map(Number))).toBe(DOCUMENT_VERSION);
  });
});

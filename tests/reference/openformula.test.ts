import { readFileSync } from 'node:fs';
import { documentOf } from '@kerfbook/document/testing';
import { type CellValue, parseAddress, Workbook } from '@kerfbook/workbook';
import { Calculator, type Content, tokensOf } from '@kerfbook/workbook/hyperformula';
import { CompiledDocument } from '@kerfbook/workbook/sweep';
import { describe, expect, it } from 'vitest';
import { DIFFERENCES } from './openformula-differences.ts';

/**
 * The OpenFormula standard's own cases (ODF 1.3 part 4 and test vectors taken from it; sources in
 * the file) through our engine. What differs is listed by name with its reason, and the list is
 * exact: a listed case that comes right fails until it is taken off the list.
 */

interface Case {
  readonly formula: string;
  readonly expected: number | string | boolean | { readonly error: string };
  readonly tolerance: number;
  /** One cell by its address, or a block of rows by its range; beside them what is to be known of them. */
  readonly cells?: Readonly<Record<string, Scalar | readonly (readonly Scalar[])[]>>;
}

/** A cell that is in error says which error. */
type Scalar = number | string | boolean | null | { readonly error: string };

const file = new URL('./data/openformula-cases.json', import.meta.url);
const { cases } = JSON.parse(readFileSync(file, 'utf8')) as { cases: readonly Case[] };

/** Semicolons between arguments become commas; in inline arrays `;` and `|` become `,` and `;`. */
function canonical(formula: string): string {
  return formula.replace(/"(?:[^"]|"")*"|\{[^}]*\}|;/g, (part) => {
    if (part === ';') return ',';
    return part.startsWith('{') ? part.replaceAll(';', ',').replaceAll('|', ';') : part;
  });
}

/** A formula for each error that the cases have in a cell. */
const IN_ERROR: Readonly<Record<string, string>> = { '#DIV/0!': '=1/0', '#N/A': '=NA()' };

const contentOf = (value: Scalar): Content => {
  if (typeof value === 'object' && value !== null) {
    const formula = IN_ERROR[value.error];
    if (formula === undefined) throw new Error(`no formula is known for ${value.error}`);
    return { formula: tokensOf(formula) };
  }
  if (typeof value !== 'string') return value;
  return value.startsWith('=') ? { formula: tokensOf(canonical(value)) } : { text: value };
};

/** Far from the cells that the cases set. */
const HERE = { sheet: 's1', row: 40, column: 20 };

/** The cells of a case by where they stand. */
const cellsOf = ({ cells = {} }: Case) =>
  Object.entries(cells).flatMap(([address, value]) => {
    if (address === '_note') return [];
    const { row: top = 0, column: left = 0 } = parseAddress(address.split(':')[0] ?? '') ?? {};
    const block = Array.isArray(value)
      ? (value as readonly (readonly Scalar[])[])
      : [[value as Scalar]];
    return block.flatMap((line, row) =>
      line.map((one, column) => ({ row: top + row, column: left + column, one })),
    );
  });

function work(given: Case): CellValue {
  const calculator = Calculator.build({
    system: 'us',
    sheets: [{ id: 's1', name: 'Sheet', cells: [] }],
    names: [],
  });
  for (const { row, column, one } of cellsOf(given)) {
    calculator.setCells([{ sheet: 's1', row, column, content: contentOf(one) }]);
  }
  calculator.setCells([{ ...HERE, content: { formula: tokensOf(canonical(given.formula)) } }]);
  const value = calculator.value(HERE);
  calculator.destroy();
  return value;
}

/** The same through compiled formulas; nothing where one of them is not compiled. */
function compiled(given: Case): CellValue | undefined {
  const grid = Array.from({ length: 60 }, () => new Array<null>(30).fill(null));
  const book = Workbook.open(documentOf({ sheets: { Sheet: grid } }));
  const enter = (row: number, column: number, one: Scalar): void => {
    const content = contentOf(one);
    const isFormula = typeof content === 'object' && content !== null && 'formula' in content;
    const text = isFormula ? content.formula.map(({ value }) => value).join('') : '';
    const value = typeof one === 'object' ? null : one;
    const place = { row, column };
    const result = isFormula
      ? book.apply({ do: 'enter', sheet: 's1', cells: [{ ...place, text }] })
      : book.apply({
          do: 'setCells',
          sheet: 's1',
          cells: [{ ...place, cell: value === null ? null : { value } }],
        });
    if (!result.ok) throw new Error(result.says);
  };
  for (const { row, column, one } of cellsOf(given)) enter(row, column, one);
  const kept = book.apply({
    do: 'enter',
    sheet: 's1',
    cells: [{ row: HERE.row, column: HERE.column, text: canonical(given.formula) }],
  });
  if (!kept.ok) return undefined;
  const document = CompiledDocument.of(book.document());
  const value = document.left().length === 0 ? document.value(HERE) : undefined;
  document.destroy();
  return value;
}

function agrees(value: CellValue, { expected, tolerance }: Case): boolean {
  if (typeof expected === 'object') {
    return (
      value.kind === 'error' && (expected.error === 'any' || value.error.word === expected.error)
    );
  }
  if (typeof expected === 'number') {
    const allowed = Math.max(tolerance, 1e-9 * Math.max(1, Math.abs(expected)));
    return value.kind === 'number' && Math.abs(value.number - expected) <= allowed;
  }
  if (typeof expected === 'boolean') return value.kind === 'logical' && value.logical === expected;
  return value.kind === 'text' && value.text === expected;
}

describe('the OpenFormula cases', () => {
  it('are all there', () => {
    expect(cases.length).toBe(290);
  });

  it.each(cases.map((one, index) => ({ ...one, name: `${index + 1}: ${one.formula}` })))(
    '$name',
    (one) => {
      const value = work(one);
      const reason = DIFFERENCES[one.formula];
      expect(agrees(value, one), `${JSON.stringify(value)} for ${one.formula}`).toBe(
        reason === undefined,
      );
    },
  );

  it('come to the same where they are compiled, which most of them are', () => {
    let count = 0;
    for (const one of cases) {
      const value = compiled(one);
      if (value === undefined) continue;
      count += 1;
      expect({ formula: one.formula, value }).toEqual({ formula: one.formula, value: work(one) });
    }
    expect(count).toBeGreaterThan(200);
  });

  it('have every difference told in LIMITS.md', () => {
    const told = readFileSync(
      new URL('../../packages/workbook/LIMITS.md', import.meta.url),
      'utf8',
    ).replaceAll(/\s+/g, ' ');
    for (const reason of Object.values(DIFFERENCES)) expect(told).toContain(`**${reason}**`);
  });

  it('name no difference that is not among them', () => {
    const known = new Set(cases.map(({ formula }) => formula));
    expect(Object.keys(DIFFERENCES).filter((formula) => !known.has(formula))).toEqual([]);
  });
});

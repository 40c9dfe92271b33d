import { readFileSync } from 'node:fs';
import { ownFromUs, usFromOwn } from '@kerfbook/wood';
import { type BookDocument, loadText, Workbook } from '@kerfbook/workbook';
import { expect } from 'vitest';
import { inMetric } from '../hostile/tables/metric.ts';
import { enterAll } from './dining-table-book.ts';

/** Inputs of a workbook by their names, in the units of the us. */
export type Inputs = Readonly<Record<string, number | string>>;

/** The text of a template as it ships, by the name of its file. */
export const textOf = (name: string): string =>
  readFileSync(new URL(`../../templates/${name}.json`, import.meta.url), 'utf8');

/** A template as it ships. @throws Error where it cannot be read */
export function documentOf(name: string): BookDocument {
  const loaded = loadText(textOf(name));
  if (!loaded.ok) throw new Error(loaded.says);
  return loaded.document;
}

/** A template opened with other entries in named cells, in its own units or in metric. */
export function bookWith(
  name: string,
  entries: Readonly<Record<string, string>>,
  units: 'us' | 'metric' = 'us',
): Workbook {
  const document = documentOf(name);
  return enterAll(Workbook.open(units === 'us' ? document : inMetric(document)), entries);
}

/**
 * What a maker put into a workbook: cells with a name and without a formula, in the units of the us; and the smallest
 * mark on a rule in its units, a sixteenth or a millimeter.
 */
export function inputsOf(book: Workbook): Inputs {
  const inputs: Record<string, number | string> = {
    mark_on_rule: book.units === 'us' ? 1 / 16 : 1 / 25.4,
  };
  for (const { name } of book.names()) {
    const cell = book.named(name);
    if (cell?.role !== 'input') continue;
    const { value, quantity } = cell;
    if (value.kind === 'number')
      inputs[name] = usFromOwn(quantity ?? 'number', value.number, book.units);
    else if (value.kind === 'text') inputs[name] = value.text;
  }
  return inputs;
}

/** The number of an input. @throws Error where there is none by that name */
export function numberOf(inputs: Inputs, name: string): number {
  const value = inputs[name];
  if (typeof value !== 'number') throw new Error(`no number ${name}`);
  return value;
}

/** Holds that each named cell shows what was worked out without it, to one part in a hundred million. */
export function expectHeld(book: Workbook, expected: Readonly<Record<string, number>>): void {
  for (const [name, us] of Object.entries(expected)) {
    const cell = book.named(name);
    const value = cell?.value;
    const held = value?.kind === 'number' ? value.number : Number.NaN;
    const own = ownFromUs(cell?.quantity ?? 'number', us, book.units);
    expect(Math.abs(held - own), `${name} is ${held}, not ${own}`).toBeLessThanOrEqual(
      1e-8 * Math.max(1, Math.abs(own)),
    );
  }
}

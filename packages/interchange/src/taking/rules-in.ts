import { type Allow, LIMITS, readWritten } from '@kerfbook/document';
import type { SheetIn, ToldIn } from './coming-in.ts';

/** What a rule says that cells take, in the words of ECMA-376 part 1, 18.3.1.32. */
export interface Rule {
  readonly type: string;
  readonly operator: string;
  readonly one: string;
  readonly other: string;
}

/** A rule and the ranges that it is for. */
export interface RawRule extends Rule {
  readonly ranges: string;
}

/** Corners of a range of cells, counted from 0, all of it included. */
export interface Area {
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
}

/** `B2:C9`, or one cell, within what a sheet has; undefined where it is none. */
export function areaOf(ref: string): Area | undefined {
  const [first = '', second = first] = ref.replaceAll('$', '').split(':');
  const one = cornerOf(first);
  const other = cornerOf(second);
  if (one === undefined || other === undefined) return undefined;
  const area = {
    top: Math.min(one.row, other.row),
    left: Math.min(one.column, other.column),
    bottom: Math.min(LIMITS.rows - 1, Math.max(one.row, other.row)),
    right: Math.min(LIMITS.columns - 1, Math.max(one.column, other.column)),
  };
  return area.top > area.bottom || area.left > area.right ? undefined : area;
}

function cornerOf(text: string): { readonly row: number; readonly column: number } | undefined {
  const from = readWritten(text)?.from;
  return from?.row === undefined || from.column === undefined
    ? undefined
    : { row: from.row, column: from.column };
}

/** Of a rule that a workbook has no words for. */
export const RULE_LEFT_OUT =
  'What these cells take is said in a way that has no place here; the rule is left out.';

/** Cells that a rule is kept for at most: one may be for a whole column. */
const MOST_CELLS = 20_000;

/** What cells take, as far as a workbook says it too: ranges of numbers, and lists that the rule names. */
export function rulesOf(
  rules: readonly RawRule[],
  sheet: string,
  told: ToldIn[],
  wordsOf: (ref: string) => readonly string[] | undefined,
): readonly { readonly row: number; readonly column: number; readonly allow: Allow }[] {
  const found: { row: number; column: number; allow: Allow }[] = [];
  for (const rule of rules) {
    const allow = allowOf(rule, wordsOf);
    if (allow === undefined) {
      if (rule.type !== 'none') {
        told.push({
          kind: 'rule',
          of: `${sheet}!${rule.ranges}`,
          says: RULE_LEFT_OUT,
        });
      }
      continue;
    }
    for (const ref of rule.ranges.split(/\s+/)) {
      const area = areaOf(ref);
      if (area === undefined) continue;
      for (let row = area.top; row <= area.bottom && found.length < MOST_CELLS; row += 1) {
        for (
          let column = area.left;
          column <= area.right && found.length < MOST_CELLS;
          column += 1
        ) {
          found.push({ row, column, allow });
        }
      }
    }
  }
  return found;
}

const NUMBER = /^[+-]?\d+(?:\.\d+)?(?:[eE][+-]?\d+)?$/;
const MOST_ENTRIES = 500;

/** Words and numbers of a range, in its order; undefined where they are none that could be chosen from. */
export function wordsIn(sheet: SheetIn, area: Area): readonly string[] | undefined {
  const found: string[] = [];
  for (const { row, column, value } of sheet.cells) {
    if (row < area.top || row > area.bottom || column < area.left || column > area.right) continue;
    if (value?.kind === 'text' && value.text !== '') found.push(value.text);
    else if (value?.kind === 'number') found.push(String(value.number));
    if (found.length > MOST_ENTRIES) return undefined;
  }
  return found.length === 0 ? undefined : found;
}

/** What a rule is here; undefined where it cannot be said. */
export function allowOf(
  { type, operator, one, other }: Rule,
  wordsOf: (ref: string) => readonly string[] | undefined,
): Allow | undefined {
  if (type === 'list') {
    if (!one.startsWith('"')) {
      const list = wordsOf(one);
      return list === undefined ? undefined : { list: [...list] };
    }
    if (!one.endsWith('"') || one.length < 2) return undefined;
    const list = one
      .slice(1, -1)
      .replaceAll('""', '"')
      .split(',')
      .map((entry) => entry.trim());
    return list.length > MOST_ENTRIES ? undefined : { list };
  }
  if (type !== 'whole' && type !== 'decimal') return undefined;
  const whole = type === 'whole' ? { whole: true } : {};
  const from = NUMBER.test(one) ? Number(one) : undefined;
  const to = NUMBER.test(other) ? Number(other) : undefined;
  if (operator === 'between' && from !== undefined && to !== undefined)
    return { ...whole, min: from, max: to };
  if (operator === 'greaterThanOrEqual' && from !== undefined) return { ...whole, min: from };
  if (operator === 'lessThanOrEqual' && from !== undefined) return { ...whole, max: from };
  return undefined;
}

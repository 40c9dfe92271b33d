import type { Rule } from '../taking/rules-in.ts';
import { plainReference } from './read-formula.ts';

/** A list that a rule spells out, a rule in the words of the other format, or nothing where it has none. */
export type RuleRead =
  | { readonly kind: 'list'; readonly list: readonly string[] }
  | { readonly kind: 'rule'; readonly rule: Rule }
  | { readonly kind: 'none' };

const NONE: RuleRead = { kind: 'none' };
const LIST = /^cell-content-is-in-list\((.*)\)$/s;
const ENTRY = /\s*"((?:[^"]|"")*)"\s*(?:;|$)/gsy;
const NUMBERS =
  /^cell-content-is-(whole-number|decimal-number)\(\)(?: and cell-content(?:-is-between\(([^,]+),([^,]+)\)|\(\)(>=|<=)([^<>=]+)))?$/;
const MOST = 500;

/** What a condition says that cells take (OpenDocument 1.3 part 3, 19.602). */
export function ruleRead(condition: string): RuleRead {
  const text = condition.trim().replace(/^[A-Za-z][\w.-]*:/, '');
  const listed = LIST.exec(text)?.[1];
  if (listed !== undefined) return listRead(listed.trim());
  const found = NUMBERS.exec(text);
  if (found === null) return NONE;
  const [, kind, from, to, sign, bound = ''] = found;
  const type = kind === 'whole-number' ? 'whole' : 'decimal';
  if (from !== undefined && to !== undefined) {
    return {
      kind: 'rule',
      rule: { type, operator: 'between', one: from.trim(), other: to.trim() },
    };
  }
  if (sign === undefined) return NONE;
  const operator = sign === '>=' ? 'greaterThanOrEqual' : 'lessThanOrEqual';
  return { kind: 'rule', rule: { type, operator, one: bound.trim(), other: '' } };
}

function listRead(text: string): RuleRead {
  if (text.startsWith('[') && text.endsWith(']')) {
    const one = plainReference(text.slice(1, -1));
    return { kind: 'rule', rule: { type: 'list', operator: 'between', one, other: '' } };
  }
  const list: string[] = [];
  let end = 0;
  ENTRY.lastIndex = 0;
  for (let found = ENTRY.exec(text); found !== null; found = ENTRY.exec(text)) {
    list.push((found[1] ?? '').replaceAll('""', '"'));
    end = ENTRY.lastIndex;
    if (end >= text.length || list.length > MOST) break;
  }
  return end < text.length || list.length === 0 ? NONE : { kind: 'list', list };
}

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { repeatedKey } from '../format/repeated-key.ts';
import { saveText } from '../format/save.ts';
import { documentOf } from '../testing/sample.ts';
import { loadText } from './load.ts';

const text = saveText(documentOf({ sheets: { One: [[1, 'two'], [3]] } }));

describe('a key that stands twice', () => {
  it.each([
    ['{"a":1,"b":{"a":1},"c":[{"a":1},{"a":2}]}', undefined],
    ['{"a":"\\"a\\":1,","b":"a"}', undefined],
    ['["a","a"]', undefined],
    ['{"a":1,\n"b":2,\r\n"a" : 3}', { key: 'a', line: 3 }],
    ['{"a":1,"\\u0061":2}', { key: 'a', line: 1 }],
    ['{"x\\\\":1,"y":[{"k":1,"k":2}]}', { key: 'k', line: 1 }],
    ['{"":1,"":2}', { key: '', line: 1 }],
    ['{"__proto__":1,"__proto__":2}', { key: '__proto__', line: 1 }],
  ])('%j', (json, found) => {
    expect(repeatedKey(json)).toEqual(found);
  });

  it('is found wherever JSON can have one, and never where there is none', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 4 }), fc.constantFrom(0, 2, '\t'), (value, space) => {
        expect(repeatedKey(JSON.stringify(value, null, space))).toBeUndefined();
        const twice = JSON.stringify([{ k: value }], null, space).replace('"k":', '"k": 0, "k":');
        expect(repeatedKey(twice)?.key).toBe('k');
      }),
    );
  });

  it('D1 is refused with its line: one of the two would be lost', () => {
    const line = text.split('\n').findIndex((one) => one.includes('"two"')) + 1;
    const loaded = loadText(
      text.replace('"c1": { "value": 1 }', '"c1": { "value": 9 }, "c1": { "value": 1 }'),
    );
    expect(loaded).toEqual({
      ok: false,
      code: 'D4',
      says: `The workbook is damaged at line ${line}: the key "c1" stands there twice in one place.`,
    });
  });

  it('D1 is refused where it reaches into prototypes and would be dropped', () => {
    const loaded = loadText(text.replace('"c1": { "value": 3 }', '"__proto__": { "value": 3 }'));
    expect(loaded).toMatchObject({
      ok: false,
      code: 'D4',
      says: expect.stringContaining('sheets 1, rows 2, cells: its key "__proto__" will not do'),
    });
  });

  it('D2 writes an empty group of cells again as it was', () => {
    const bare = text.replace('"cells": { "c1": { "value": 3 } }', '"cells": {}');
    expect(bare).not.toBe(text);
    const loaded = loadText(bare);
    if (!loaded.ok) throw new Error(loaded.says);
    expect(saveText(loaded.document)).toBe(bare);
  });
});

import { describe, expect, it } from 'vitest';
import {
  idsOf,
  idTroubles,
  listedIds,
  listedRevisions,
  notedIds,
  raised,
  signOf,
  templateTexts,
} from '../scripts/template-revisions.mjs';

const texts: Readonly<Record<string, string>> = templateTexts();
const RUN = 'run node tests/scripts/template-revisions.mjs';

const shelf = (rows: readonly object[], more: object = {}) => ({
  sheets: [{ id: 's1', name: 'Sizes', columns: [{ id: 'c1' }], rows }],
  checks: [{ id: 'k1', name: 'Long enough' }],
  tables: [{ id: 't1', kind: 'parts', sheet: 's1' }],
  ...more,
});
const row = (id: string, name: string) => ({ id, cells: { c1: { name } } });

describe('the revision of a template that ships', () => {
  it.each(Object.entries(texts))('is listed with the sign of %s', (key, text) => {
    expect(listedRevisions()[key]?.sign, `${key} was changed: ${RUN}`).toBe(signOf(text));
  });

  it('is listed of no other', () => {
    expect(Object.keys(listedRevisions()).sort()).toEqual(Object.keys(texts).sort());
  });

  it('grows by one with another text, and stays with the same', () => {
    const listed = { shelf: { revision: 3, sign: signOf('{}') } };
    expect(raised(listed, { shelf: '{}', stool: '[]' })).toEqual({
      shelf: { revision: 3, sign: signOf('{}') },
      stool: { revision: 1, sign: signOf('[]') },
    });
    expect(raised(listed, { shelf: '{ }' }).shelf?.revision).toBe(4);
  });
});

describe('ids of a template that ships', () => {
  it.each(Object.entries(texts))('stand for what they stood for in %s', (key, text) => {
    const [was, now] = [listedIds()[key], idsOf(JSON.parse(text))];
    expect(idTroubles(key, was ?? {}, now)).toEqual([]);
    expect(was, `what the ids of ${key} stand for is not noted: ${RUN}`).toEqual(
      notedIds(was ?? {}, now),
    );
  });

  it('are refused where a name, check, table or sheet comes under another one', () => {
    const was = idsOf(shelf([row('r1', 'depth')]));
    const moved = shelf([row('r2', 'depth')], {
      checks: [{ id: 'k2', name: 'Long enough' }],
      tables: [{ id: 't2', kind: 'parts', sheet: 's1' }],
    });
    expect(idTroubles('shelf', was, idsOf(moved))).toEqual([
      'shelf: depth was s1!c1.r1 and is s1!c1.r2. Give it its former id.',
      'shelf: Long enough was k1 and is k2. Give it its former id.',
      'shelf: parts on s1 was t1 and is t2. Give it its former id.',
    ]);
  });

  it('are refused where one that went comes again, however long ago', () => {
    const first = idsOf(shelf([row('r1', 'depth'), row('r2', 'width')]));
    const second = notedIds(first, idsOf(shelf([row('r1', 'depth')])));
    const third = notedIds(second, idsOf(shelf([row('r1', 'depth'), row('r3', 'height')])));
    expect(third.gone).toBe('s1!r2');
    const again = idsOf(shelf([row('r1', 'depth'), row('r2', 'color')]));
    expect(idTroubles('shelf', third, again)).toEqual([
      'shelf: s1!r2 was removed once and is used again. Take a new id.',
    ]);
  });
});

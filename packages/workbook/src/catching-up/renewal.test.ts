import { describe, expect, it } from 'vitest';
import { type BookDocument, loadText, roundFigures, saveText, Workbook } from '../index.ts';
import { shipped, typed } from '../testdata/shipped.ts';
import { Renewal } from './renewal.ts';
import { statesTogether } from './states.ts';

function metric(document: BookDocument): BookDocument {
  const book = Workbook.open(document);
  book.apply({ do: 'changeUnits', to: 'metric' });
  const edit = roundFigures(book.document());
  if (edit !== undefined) book.apply(edit);
  return book.document();
}

/** Turned and put on round figures, and that taken back: it stands as it was converted. */
function metricExactly(document: BookDocument): BookDocument {
  const book = Workbook.open(document);
  book.apply({ do: 'changeUnits', to: 'metric' });
  const edit = roundFigures(book.document());
  if (edit === undefined || !book.apply(edit).ok) throw new Error('nothing to round');
  book.undo();
  return book.document();
}

function renewal(base: BookDocument, theirs: BookDocument, mine: BookDocument): Renewal {
  const done = Renewal.of(base, theirs, mine);
  if (!done.ok) throw new Error(done.says);
  return done.renewal;
}

const bench = shipped('bench');

describe('what is new in a template', () => {
  it('H10 is nothing where nothing is: conversion and round figures are no change of the maker', () => {
    const found = renewal(bench, bench, metric(bench));
    expect([found.met, found.taken, found.kept]).toEqual([[], [], []]);
    const done = found.settle(new Map());
    expect(done.ok && done.conflicts).toEqual([]);
  });

  it('H10 does not tell that a workbook has a title of its own', () => {
    const book = Workbook.open(bench);
    book.apply({ do: 'setBook', set: { title: 'Hall bench', customer: 'N. Linden' } });
    const { kept } = renewal(bench, bench, book.document());
    expect(kept.map(({ what, after }) => [what, after])).toEqual([['Customer', 'N. Linden']]);
  });

  it('H10 meets a metric copy only where both changed the same, weighs both and takes what was chosen', () => {
    const mine = typed(metric(bench), { seat_length: '1500 mm' });
    const theirs = typed(bench, { seat_length: '50', seat_height: '17' });
    const found = renewal(bench, theirs, mine);
    expect(found.met.map(({ what, kind }) => [what, kind])).toHaveLength(1);
    expect(found.kept).toEqual([]);
    expect(found.taken).toHaveLength(1);
    const [met] = found.met;
    if (met === undefined) throw new Error('nothing met');
    const results = (which: 'mine' | 'theirs') => {
      const weighed = found.weigh(new Map([[met.key, which]]), met);
      if ('says' in weighed) throw new Error(weighed.says);
      const done = found.settle(new Map([[met.key, which]]));
      if (!done.ok) throw new Error(done.says);
      const book = Workbook.open(done.document);
      expect(loadText(saveText(done.document)).ok).toBe(true);
      // What is told of a choice is what the workbook with it comes to.
      expect(weighed.comes).toMatch(book.named('seat_length')?.shown.text ?? 'none');
      for (const { name, shown } of weighed.results) {
        expect(shown).toContain(book.named(name)?.shown.text);
      }
      expect(weighed.parts).toBeGreaterThan(0);
      return weighed.comes;
    };
    expect(results('mine')).toContain('1500');
    expect(results('theirs')).not.toContain('1500');
  });

  it('H10 meets nothing in a metric copy whose rounding was undone', () => {
    const mine = metricExactly(bench);
    expect(mine).not.toEqual(metric(bench));
    const nothing = renewal(bench, bench, mine);
    expect([nothing.met, nothing.taken, nothing.kept]).toEqual([[], [], []]);
    const found = renewal(bench, typed(bench, { seat_length: '50' }), mine);
    expect([found.met, found.kept]).toEqual([[], []]);
    expect(found.taken).toHaveLength(1);
    // What comes is converted as exactly as the rest.
    expect(found.taken[0]?.after).toContain('1270');
  });

  it('H10 meets only what was typed over in a metric copy, rounded or not', () => {
    const theirs = typed(bench, { seat_height: '17' });
    for (const copy of [metric(bench), metricExactly(bench)]) {
      const found = renewal(bench, theirs, typed(copy, { seat_length: '1500 mm' }));
      expect(found.met).toEqual([]);
      expect(found.kept.map(({ after }) => after)).toEqual(['1500 mm']);
      expect(found.taken).toHaveLength(1);
      const both = renewal(bench, theirs, typed(copy, { seat_height: '440 mm' }));
      expect(both.met.map(({ mine }) => mine.entry)).toEqual(['440 mm']);
      expect([both.taken, both.kept]).toEqual([[], []]);
    }
  });

  it('H10 meets nothing where a maker typed the round figure over the exact one', () => {
    const round = Workbook.open(metric(bench)).named('seat_length')?.shown.text ?? '';
    const mine = typed(metricExactly(bench), { seat_length: `${round} mm` });
    const found = renewal(bench, bench, mine);
    expect([found.met, found.taken]).toEqual([[], []]);
  });

  it("H9 calls by a person's words what both said of the workbook, a check and a row", () => {
    const said = (about: string, says: string, hidden: 'first' | 'second'): BookDocument => {
      const [first, ...rest] = bench.sheets;
      const [check, ...checks] = bench.checks;
      if (first === undefined || check === undefined) throw new Error('an empty bench');
      return {
        ...bench,
        about,
        sheets: [{ ...first, name: `${first.name} ${hidden}` }, ...rest],
        checks: [{ ...check, says }, ...checks],
      };
    };
    const found = renewal(
      bench,
      said('Theirs.', 'Too short.', 'second'),
      said('Mine.', 'Short.', 'first'),
    );
    const [check] = bench.checks;
    expect(found.met.map(({ what }) => what)).toEqual([
      'Description',
      expect.stringMatching(/^Sheet .* first, name$/),
      `Check ${check?.name}, sentence`,
    ]);
    expect(found.met.map(({ mine, theirs }) => [mine.entry, theirs.entry])).toContainEqual([
      'Mine.',
      'Theirs.',
    ]);
  });

  it('H10 is refused between workbooks that are no relatives', () => {
    const done = Renewal.of(bench, shipped('cost'), bench);
    expect(done).toMatchObject({
      ok: false,
      says: expect.stringMatching(/did not come of one workbook/),
    });
  });
});

describe('two states of one workbook', () => {
  const names = { mine: 'here', theirs: 'at the club' };
  const of = (theirs: BookDocument, mine: BookDocument): Renewal => {
    const done = Renewal.ofStates(bench, theirs, mine, names);
    if (!done.ok) throw new Error(done.says);
    return done.renewal;
  };
  const settledIn = (found: Renewal): BookDocument => {
    const done = found.settle(new Map());
    if (!done.ok) throw new Error(done.says);
    expect(done.conflicts).toEqual([]);
    return done.document;
  };
  const withHead = (set: Partial<Pick<BookDocument, 'title' | 'customer'>>): BookDocument => {
    const book = Workbook.open(bench);
    expect(book.apply({ do: 'setBook', set }).ok).toBe(true);
    return book.document();
  };

  it('H9 merge what each says of the workbook as a whole, and meet where both said it', () => {
    const both = settledIn(of(withHead({ customer: 'N. Linden' }), withHead({ title: 'Hall' })));
    expect([both.customer, both.title]).toEqual(['N. Linden', 'Hall']);
    const found = of(withHead({ title: 'Porch' }), withHead({ title: 'Hall' }));
    expect(found.met.map(({ what, mine, theirs }) => [what, mine.entry, theirs.entry])).toEqual([
      ['Title', 'Hall', 'Porch'],
    ]);
  });

  it('H10 take over the units that only one of them was turned into, with what both typed', () => {
    const turned = typed(metric(bench), { seat_height: '440 mm' });
    const long = typed(bench, { seat_length: '50' });
    for (const [theirs, mine] of [
      [turned, long],
      [long, turned],
    ] as const) {
      const book = Workbook.open(settledIn(of(theirs, mine)));
      expect(book.units).toBe('metric');
      expect(book.named('seat_length')?.shown.text).toBe('1270');
      expect(book.named('seat_height')?.shown.text).toBe('440');
    }
  });

  it('H9 are told apart in sentences by what each is called', () => {
    const [theirs, mine] = ['50', '52'].map((length) => typed(bench, { seat_length: length }));
    if (theirs === undefined || mine === undefined) throw new Error('nothing typed');
    const done = statesTogether(bench, theirs, mine, names);
    if (!done.ok) throw new Error(done.says);
    expect(done.conflicts.map(({ says }) => says)).toEqual([
      expect.stringMatching(/52.* here.*50.* at the club|here.*52.*at the club.*50/),
    ]);
  });

  it('H10 are one workbook also where one of them took out all that had a name', () => {
    const book = Workbook.open(bench);
    book.apply({ do: 'addSheet', at: 0, sheet: { id: 'n', name: 'New', columns: [], rows: [] } });
    for (const { id } of bench.sheets) book.apply({ do: 'removeSheet', sheet: id });
    expect(book.names()).toEqual([]);
    expect(settledIn(of(book.document(), bench)).sheets.map(({ name }) => name)).toEqual(['New']);
  });
});

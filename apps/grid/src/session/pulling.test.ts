import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Edit, loadText, saveText, Workbook } from '@kerfbook/workbook';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { Session } from './session.ts';

/** Pulling a number without a browser: what is followed, what is kept, what is left as it was. */

const file = join(import.meta.dirname, '../../../../templates/dining-table.json');
let recorded: Edit[];
let session: Session;

beforeEach(() => {
  const loaded = loadText(readFileSync(file, 'utf8'));
  if (!loaded.ok) throw new Error(loaded.says);
  recorded = [];
  session = new Session({
    book: Workbook.open(loaded.document),
    mayChange: true,
    stretch: Number.POSITIVE_INFINITY,
    record: (edit) => recorded.push(edit),
  });
});

const at = (name: string) => {
  const place = session.book.find(name);
  if (place === undefined) throw new Error(`the template has no ${name}`);
  return place;
};
const shows = (name: string): string => session.book.cell(at(name)).shown.text;
const numberOf = (name: string): number | undefined => {
  const value = session.book.value(at(name));
  return value.kind === 'number' ? value.number : undefined;
};
const frame = () => new Promise((resolve) => setTimeout(resolve));
const text = () => saveText(session.book.document());

describe('a number that is pulled', () => {
  it('is followed at each frame by the newest value, and let go is one change', async () => {
    const [first, price] = [text(), shows('price')];
    expect(session.pulls.begin(at('top_length'), 'hand')).toBe(true);
    const { changes } = session.state.value;
    session.pulls.to(85.2, 1);
    session.pulls.to(90.3, 1);
    expect(shows('top_length')).toBe('84');
    await frame();
    expect(shows('top_length')).toBe('90');
    expect(shows('price')).not.toBe(price);
    expect(session.state.value.changes).toBe(changes + 1);
    session.pulls.to(95.9, 1);
    // What was not followed yet counts when it is let go.
    session.pulls.keep();
    expect(recorded).toHaveLength(1);
    expect(shows('top_length')).toBe('96');
    expect(session.wasShown(at('top_length'))).toBeUndefined();
    expect(session.state.value.pulling).toBeUndefined();
    expect(session.state.value.announcement).toMatch(
      /^Length of the top 96\. \d+ cells changed\.$/,
    );
    session.undo();
    expect(text()).toBe(first);
    expect(session.book.canUndo).toBe(false);
  });

  it('tells at each frame what it does, and forgets that at Escape', async () => {
    const { effects } = session;
    const settled = async (): Promise<void> => {
      await vi.waitFor(() => expect(effects.state.value.trying).toBeDefined());
    };
    const told = (name: string): number | undefined => {
      const place = at(name);
      const one = effects.state.value.trying?.moved.find(
        (moved) => moved.at.sheet === place.sheet && moved.at.row === place.row,
      );
      return one?.is.kind === 'number' ? one.is.number : undefined;
    };
    session.pulls.begin(at('top_length'), 'hand');
    session.pulls.to(96, 1);
    await settled();
    const first = told('price');
    expect(first).toBe(numberOf('price'));
    session.pulls.to(120, 1);
    await vi.waitFor(() => expect(told('price')).not.toBe(first));
    expect(told('price')).toBe(numberOf('price'));
    expect(effects.state.value.last).toBeUndefined();
    // Pulled back to where it was, nothing moved.
    session.pulls.to(84, 1);
    await vi.waitFor(() => expect(effects.state.value.trying?.moved).toEqual([]));
    session.pulls.drop();
    expect(effects.state.value.trying).toBeUndefined();
    // Let go, it is the last change, with what moved since before the pull.
    session.pulls.begin(at('top_length'), 'hand');
    session.pulls.to(96, 1);
    await settled();
    const tried = effects.state.value.trying?.moved.length;
    session.pulls.keep();
    await vi.waitFor(() => expect(effects.state.value.last).toBeDefined());
    expect(effects.state.value.trying).toBeUndefined();
    expect(effects.state.value.last?.moved).toHaveLength(tried ?? 0);
  });

  it('is what it was after Escape: no step, no edit, and the same news as before', async () => {
    session.noteShown(at('price'), shows('price'));
    session.apply({
      do: 'enter',
      ...{ sheet: at('top_width').sheet },
      cells: [{ ...at('top_width'), text: '40' }],
    });
    session.noteShown(at('price'), shows('price'));
    const [first, was, price] = [text(), session.wasShown(at('price')), shows('price')];
    session.pulls.begin(at('top_length'), 'keys');
    session.pulls.step(8, false);
    await frame();
    session.noteShown(at('price'), shows('price'));
    expect(shows('top_length')).toBe('85');
    expect(session.wasShown(at('price'))).toBe(price);
    session.pulls.drop();
    expect(text()).toBe(first);
    expect(session.wasShown(at('price'))).toBe(was);
    expect(recorded).toHaveLength(1);
    expect(session.state.value.announcement).toBe('Length of the top as it was: 84.');
  });

  it('stops at the ends of its range and says so', async () => {
    const { low = 0, high = 0 } = session.pulls.pullAt(at('top_length')) ?? {};
    session.pulls.begin(at('top_length'), 'hand');
    session.pulls.to(5000, 1);
    await frame();
    expect(shows('top_length')).toBe(String(high));
    expect(session.state.value.pulling).toMatchObject({ end: 'high', share: 1 });
    expect(session.state.value.announcement).toBe(
      `Length of the top ${high} in, the most it takes.`,
    );
    session.pulls.to(-5000, 1);
    expect(session.pulls.words()).toBe(`${low} to ${high} in, by 1 in: the least`);
    session.pulls.drop();
  });

  it('that comes back to where it began is no change', async () => {
    session.pulls.begin(at('top_length'), 'hand');
    session.pulls.to(90, 1);
    await frame();
    session.pulls.to(84, 1);
    session.pulls.keep();
    expect(recorded).toEqual([]);
    expect(session.book.canUndo).toBe(false);
  });

  it('is let go by whatever is done next', () => {
    session.pulls.begin(at('top_length'), 'keys');
    session.pulls.step(1, true);
    session.undo();
    expect(recorded).toHaveLength(2);
    expect(shows('top_length')).toBe('84');
    session.pulls.begin(at('top_length'), 'keys');
    session.pulls.step(1, true);
    session.go(at('top_width'));
    expect(shows('top_length')).toBe('85');
  });

  it('is an input with a range, that may be changed and holds what it takes', () => {
    for (const name of ['species', 'price', 'top_title']) {
      const place = session.book.find(name);
      if (place !== undefined) expect(session.pulls.begin(place, 'hand')).toBe(false);
    }
    const { sheet, row, column } = at('top_length');
    session.apply({ do: 'enter', sheet, cells: [{ row, column, text: '5000' }] });
    expect(session.pulls.pullAt(at('top_length'))).toBeUndefined();
  });

  it('is nothing in a workbook that is only read, which it says', () => {
    const { book } = session;
    const reading = new Session({ book, mayChange: false, record: (edit) => recorded.push(edit) });
    expect(reading.pulls.begin(at('top_length'), 'hand')).toBe(false);
    expect(reading.state.value.refused).toMatch(/view only/i);
    expect(book.apply({ do: 'setBook', set: { title: 'Mine' } }).ok).toBe(true);
  });
});

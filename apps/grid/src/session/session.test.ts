import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { cameIn, type Edit, loadText, Workbook } from '@kerfbook/workbook';
import { beforeEach, describe, expect, it } from 'vitest';
import { keyAction } from '../sheet/keys.ts';
import { lastUsed, nextPlace } from '../sheet/moves.ts';
import { setDecimalMark } from './decimal-mark.ts';
import { Session } from './session.ts';

/** The session and the keys without a browser: what a browser test would find late and slowly. */

const file = join(import.meta.dirname, '../../../../templates/dining-table.json');

let recorded: Edit[];
let session: Session;

function open(mayChange = true): Session {
  const loaded = loadText(readFileSync(file, 'utf8'));
  if (!loaded.ok) throw new Error(loaded.says);
  recorded = [];
  const book = Workbook.open(loaded.document);
  // All that follows is worked out with the edit, however busy the machine is.
  const stretch = Number.POSITIVE_INFINITY;
  return new Session({ book, mayChange, stretch, record: (edit) => recorded.push(edit) });
}

function go(name: string): void {
  const at = session.book.find(name);
  if (at === undefined) throw new Error(`the template has no ${name}`);
  session.go(at);
}

beforeEach(() => {
  session = open();
});

describe('a change that could not be worked out', () => {
  it('is said, and not kept; the old state goes on', () => {
    const says = 'This change could not be worked out. Nothing was changed.';
    const refused = () => ({ ok: false as const, code: 'W19', says });
    const { apply, undo } = session.book;
    go('top_length');
    session.book.apply = refused;
    session.begin('fresh', 'cell', '');
    session.write('96');
    expect(session.commit()).toBe(false);
    expect(session.state.value.refused).toBe(says);
    session.hush();
    session.book.undo = refused;
    session.undo();
    expect(session.state.value.refused).toBe(says);
    expect(recorded).toEqual([]);
    session.book.apply = apply;
    session.book.undo = undo;
    expect(session.commit()).toBe(true);
    expect(recorded).toHaveLength(1);
  });
});

describe('what was changed elsewhere', () => {
  /** The workbook as it is with another entry in a named cell. */
  const become = (name: string, text: string): Edit => {
    const loaded = loadText(JSON.stringify(session.book.document()));
    if (!loaded.ok) throw new Error(loaded.says);
    const other = Workbook.open(loaded.document);
    const at = other.find(name);
    if (at === undefined) throw new Error(`the template has no ${name}`);
    const { sheet, row, column } = at;
    other.apply({ do: 'enter', sheet, cells: [{ row, column, text }] });
    return { do: 'become', book: other.document() };
  };
  const shown = (name: string): string => {
    const at = session.book.find(name);
    return at === undefined ? '' : session.book.cell(at).shown.text;
  };
  const enter = (name: string, text: string): void => {
    go(name);
    session.begin('fresh', 'cell', '');
    session.write(text);
    expect(session.commit()).toBe(true);
  };

  it('comes in, is kept and told, and is no step to undo', () => {
    enter('top_length', '96');
    const { done } = session.effects.state.value;
    expect(done).toHaveLength(1);
    const result = session.takeIn(
      become('top_width', '41'),
      'Brought in what Ada changed.',
      cameIn,
    );
    expect(result.ok).toBe(true);
    expect(recorded).toHaveLength(2);
    expect(session.state.value.announcement).toBe('Brought in what Ada changed.');
    expect(session.effects.state.value.done).toEqual(done);
    session.undo();
    expect([shown('top_length'), shown('top_width')]).toEqual(['84', '41']);
    expect(session.effects.state.value.done).toEqual([]);
  });

  it('takes no letter from an entry that is being written', () => {
    go('top_length');
    session.begin('fresh', 'cell', '');
    session.write('9');
    session.takeIn(become('top_width', '41'), 'Brought in what Ada changed.', cameIn);
    expect(session.editing?.text).toBe('9');
    session.write('97');
    expect(session.commit()).toBe(true);
    expect([shown('top_length'), shown('top_width')]).toEqual(['97', '41']);
  });

  it('is refused where this page may only look', () => {
    session = open(false);
    expect(session.takeIn(become('top_width', '41'), 'Brought in.', cameIn).ok).toBe(false);
    expect(recorded).toEqual([]);
  });
});

describe('a workbook that is left', () => {
  it('takes nothing more in: it would be kept as a change of the one that is open now', async () => {
    let isOpen = true;
    const { book } = open();
    session = new Session({
      book,
      mayChange: true,
      isOpen: () => isOpen,
      record: (edit) => recorded.push(edit),
    });
    const { sheet } = session.at;
    const enter = (text: string): Edit => ({
      do: 'enter',
      sheet,
      cells: [{ row: 40, column: 0, text }],
    });
    expect(session.apply(enter('before')).ok).toBe(true);
    const long = session.applyLong('Pasting', [enter('one'), enter('two')]);
    isOpen = false;
    expect(await long).toBe(false);
    expect(session.apply(enter('after')).ok).toBe(false);
    session.undo();
    session.redo();
    expect(await session.applyLong('Pasting', [enter('three')])).toBe(false);
    expect(recorded).toHaveLength(1);
    expect(book.cell({ sheet, row: 40, column: 0 }).entry).toBe('before');
  });
});

describe('an entry', () => {
  it('is taken over, kept, and said to a screen reader', () => {
    go('top_length');
    session.begin('fresh', 'cell', '');
    session.write('96');
    expect(session.commit()).toBe(true);
    expect(session.current().value).toEqual({ kind: 'number', number: 96 });
    expect(session.editing).toBeUndefined();
    expect(recorded).toHaveLength(1);
    expect(session.state.value.announcement).toMatch(
      /^Length of the top 96\. \d+ cells changed\.$/,
    );
  });

  it('that says what stood there changes nothing and is no step to undo', () => {
    go('top_length');
    session.begin('edit', 'cell');
    expect(session.commit()).toBe(true);
    expect(recorded).toEqual([]);
    expect(session.state.value.changes).toBe(0);
  });

  it('of a hand that writes a decimal comma is a number, and words in a cell for words', () => {
    setDecimalMark('comma');
    try {
      go('top_length');
      session.begin('fresh', 'cell', '');
      session.write('90,5');
      session.commit();
      expect(session.current().entry).toBe('90.5');
      const { sheet, row, column } = session.at;
      session.apply({
        do: 'describeCells',
        sheet,
        cells: [{ row, column, traits: { quantity: 'text' } }],
      });
      session.begin('fresh', 'cell', '');
      session.write('1,5');
      session.commit();
      expect(session.current().entry).toBe('1,5');
    } finally {
      setDecimalMark('point');
    }
  });

  it('of many parts is dropped when its workbook is left', async () => {
    go('top_length');
    const { sheet, row, column } = session.at;
    const was = session.current().entry;
    const part = (text: string): Edit => ({ do: 'enter', sheet, cells: [{ row, column, text }] });
    const long = session.applyLong('Putting in', [part('90'), part('91'), part('92')]);
    session.stop();
    expect(await long).toBe(false);
    expect(session.current().entry).toBe(was);
    expect(recorded).toEqual([]);
  });

  it('that is refused stays as typed, with a sentence', () => {
    go('top_length');
    session.begin('fresh', 'cell', '');
    session.write('x'.repeat(100_000));
    expect(session.commit()).toBe(false);
    expect(session.editing?.text).toHaveLength(100_000);
    expect(session.state.value.refused).toMatch(/\.$/);
    session.goSheet(session.book.sheets()[1]?.id ?? '');
    expect(session.editing?.text, 'and keeps the maker on its sheet').toHaveLength(100_000);
    session.toLine();
    expect(session.editing?.from).toBe('line');
    session.cancel();
    expect(session.editing).toBeUndefined();
    expect(session.state.value.refused).toBeUndefined();
  });

  it('that a list refuses is asked about at the list while it is open, and else over the grid', () => {
    go('cut');
    session.begin('fresh', 'cell', '');
    session.write('quater');
    expect(session.commit(true)).toBe(false);
    expect(session.state.value.offer).toMatchObject({
      says: 'No choice called "quater"; the nearest is quarter. Take it?',
      atList: true,
    });
    expect(session.commit()).toBe(false);
    expect(session.state.value.offer?.atList).toBeUndefined();
    session.cancel();
    expect(session.state.value.offer).toBeUndefined();
  });

  it('is not begun where this tab only reads', () => {
    session = open(false);
    expect(session.begin('fresh', 'cell', '')).toBe(false);
    expect(session.state.value.refused).toContain('View only');
  });
});

describe('what was shown', () => {
  it('is told only of cells that the screen has shown', () => {
    go('top_length');
    const { at } = session;
    session.noteShown(at, '84');
    session.begin('fresh', 'cell', '');
    session.write('96');
    session.commit();
    expect(session.wasShown(at)).toBe('84');
    const apron = session.book.find('apron_long');
    if (apron === undefined) throw new Error('the template has no apron_long');
    expect(session.wasShown(apron)).toBeUndefined();
  });

  it('is painted for exactly the cells that changed', () => {
    const painted: string[] = [];
    session.onRepaint((cells) => painted.push(...cells.map((at) => session.book.cell(at).address)));
    go('top_length');
    const { sheet, row, column } = session.at;
    const result = session.apply({ do: 'enter', sheet, cells: [{ row, column, text: '96' }] });
    if (!result.ok) throw new Error(result.says);
    expect(painted).toEqual(result.changed.map((at) => session.book.cell(at).address));
  });
});

describe('sheets', () => {
  it('are left and come back to on the cell that was current there', () => {
    const [first, second] = session.book.sheets();
    if (first === undefined || second === undefined) throw new Error('two sheets are needed');
    session.go({ sheet: first.id, row: 7, column: 3 });
    session.goSheet(second.id);
    expect(session.at.sheet).toBe(second.id);
    session.goSheet(first.id);
    expect(session.at).toEqual({ sheet: first.id, row: 7, column: 3 });
  });

  it('undone away leave the maker on one that is there', () => {
    const [first] = session.book.sheets();
    const sheet = { id: 'spare', name: 'Spare', columns: [{ id: 'c1' }], rows: [] };
    const result = session.apply({ do: 'addSheet', at: 1, sheet });
    if (!result.ok) throw new Error(result.says);
    session.goSheet('spare');
    session.undo();
    expect(session.at.sheet).toBe(first?.id);
  });
});

describe('moves', () => {
  const size = { rows: 40, columns: 8 };
  const put = (row: number, column: number): void =>
    session.go({ sheet: session.at.sheet, row, column });

  it('stop at the edges and never wrap (G01)', () => {
    put(0, 0);
    expect(nextPlace(session, 'up', size)).toEqual(session.at);
    expect(nextPlace(session, 'left', size)).toEqual(session.at);
    put(39, 7);
    expect(nextPlace(session, 'down', size)).toEqual(session.at);
    expect(nextPlace(session, 'next', size)).toEqual(session.at);
  });

  it('Enter returns to the column where a run of Tabs began (G06)', () => {
    put(5, 2);
    session.go(nextPlace(session, 'next', size));
    session.go(nextPlace(session, 'next', size));
    expect(nextPlace(session, 'down', size)).toMatchObject({ row: 6, column: 2 });
  });

  it('any other move ends the run', () => {
    put(5, 2);
    session.go(nextPlace(session, 'next', size));
    session.go(nextPlace(session, 'right', size));
    expect(nextPlace(session, 'down', size)).toMatchObject({ row: 6, column: 4 });
  });

  it('the last used cell of a line is where its entries end (G02)', () => {
    const { at } = session;
    const last = lastUsed(session, false);
    expect(session.book.value(last).kind).not.toBe('empty');
    expect(last.row).toBe(at.row);
    expect(session.book.value({ ...last, column: last.column + 1 }).kind).toBe('empty');
  });
});

describe('keys', () => {
  const pressed = (key: string, held: Partial<Parameters<typeof keyAction>[0]> = {}) =>
    keyAction(
      { key, ctrlKey: false, metaKey: false, altKey: false, shiftKey: false, ...held },
      false,
    );

  it('have one meaning each while nothing is written', () => {
    expect(pressed('ArrowDown')).toEqual({ do: 'move', by: 'down' });
    expect(pressed('Tab', { shiftKey: true })).toEqual({ do: 'move', by: 'previous' });
    expect(pressed('F2')).toEqual({ do: 'edit' });
    expect(pressed('Delete')).toEqual({ do: 'clear' });
    expect(pressed('Home', { ctrlKey: true })).toEqual({
      do: 'first',
      sheet: true,
      extend: false,
    });
    expect(pressed('a')).toEqual({ do: 'type' });
    expect(pressed('Process')).toEqual({ do: 'type' });
  });

  it('zoom but where whole rows or columns are selected, which the grid looks at', () => {
    for (const key of ['+', '=']) {
      expect(pressed(key, { ctrlKey: true })).toEqual({ do: 'insertWhole' });
    }
    expect(pressed('-', { ctrlKey: true })).toEqual({ do: 'removeWhole' });
    expect(pressed('≠', { altKey: true, code: 'Equal' })).toEqual({ do: 'sum' });
  });

  it('leave the browser its own', () => {
    for (const key of ['c', 'l', 't', '0']) expect(pressed(key, { ctrlKey: true })).toBeUndefined();
    for (const key of ['F5', 'F12', 'Shift', 'Control']) expect(pressed(key)).toBeUndefined();
  });
});

describe('values that take long to work out', () => {
  const ROWS = 400;

  /** A workbook in which every cell of the second column rests on the first one; stopped at each. */
  function long(): Session {
    const rows = Array.from({ length: ROWS }, (_, row) => ({
      id: `r${row + 1}`,
      cells: {
        ...(row === 0 ? { c1: { value: 1 } } : {}),
        c2: { formula: row === 0 ? '=[c1.r1]*2' : `=[c2.r${row}]+1` },
      },
    }));
    const loaded = loadText(
      JSON.stringify({
        kerfbook: 8,
        title: 'Long',
        units: 'us',
        sheets: [{ id: 's1', name: 'One', columns: [{ id: 'c1' }, { id: 'c2' }], rows }],
        checks: [],
        tables: [],
      }),
    );
    if (!loaded.ok) throw new Error(loaded.says);
    recorded = [];
    return new Session({
      book: Workbook.open(loaded.document),
      mayChange: true,
      record: (edit) => recorded.push(edit),
      stretch: 0,
    });
  }

  const place = (row: number, column: number) => ({ sheet: 's1', row, column });
  const last = place(ROWS - 1, 1);
  const enter = (text: string) => {
    session.go(place(0, 0));
    session.begin('fresh', 'cell', '');
    session.write(text);
    expect(session.commit()).toBe(true);
  };
  const shown = () => session.book.cell(last).shown.text;
  const done = async () => {
    while (session.book.pending) await new Promise((resolve) => setTimeout(resolve));
    await new Promise((resolve) => setTimeout(resolve));
  };

  beforeEach(() => {
    session = long();
  });

  it('wait for keys and are painted as they come, each once', async () => {
    const painted: string[] = [];
    session.onRepaint((cells) => {
      for (const { row, column } of cells) if (column === 1) painted.push(`${row}`);
    });
    enter('10');
    expect(recorded).toHaveLength(1);
    expect(session.book.pending).toBe(true);
    expect(shown()).toBe('401');
    expect(session.state.value.announcement).toBe('Working out what follows.');
    const { changes } = session.state.value;
    await done();
    expect(shown()).toBe('419');
    expect(painted.length).toBe(ROWS);
    expect(new Set(painted).size).toBe(ROWS);
    expect(session.state.value.changes).toBe(changes + 1);
    expect(session.state.value.announcement).toBe('A1 10. 401 cells changed.');
  });

  it('give way to the next entry, and to undo', async () => {
    enter('10');
    enter('20');
    await done();
    expect(shown()).toBe('439');
    enter('30');
    session.undo();
    session.undo();
    await done();
    expect(shown()).toBe('419');
    expect(session.book.canUndo).toBe(true);
  });

  it('are whole for what copies or prints them', () => {
    enter('10');
    expect(session.settled().cell(last).shown.text).toBe('419');
    expect(session.book.pending).toBe(false);
    expect(session.state.value.announcement).toBe('A1 10. 401 cells changed.');
  });

  it('are painted also where a question in between had them worked out', async () => {
    const painted = new Set<number>();
    session.onRepaint((cells) => {
      for (const { row, column } of cells) if (column === 1) painted.add(row);
    });
    enter('10');
    expect(session.book.evaluate(`=B${ROWS}`)).toEqual({ kind: 'number', number: 419 });
    await done();
    expect(painted.size).toBe(ROWS);
    expect(session.state.value.announcement).toBe('A1 10. 401 cells changed.');
  });

  it('are not painted halfway into what is dropped', async () => {
    enter('10');
    const part = (text: string) =>
      ({ do: 'enter', sheet: 's1', cells: [{ row: 0, column: 0, text }] }) as const;
    const putIn = session.applyLong('Putting in', [part('500'), part('600')]);
    const painted: string[] = [];
    session.onRepaint((cells) => painted.push(...cells.map(({ row }) => `${row}`)));
    await new Promise((resolve) => setTimeout(resolve));
    session.stop();
    expect(await putIn).toBe(false);
    await done();
    expect(painted).toEqual([]);
    expect(shown()).toBe('419');
  });
});

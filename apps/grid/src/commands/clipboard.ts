import type { At } from '@kerfbook/workbook';
import { afterGridModule } from '../page/after-grid.ts';
import { type Area, columnsOf, rowsOf } from '../session/area.ts';
import type { Session } from '../session/session.ts';
import type { Block } from '../session/types.ts';
import { selectedOnSheet } from './commands.ts';
import { CELLS_TYPE, remember } from './copied.ts';
import type { PasteKind } from './pasting.ts';
import { asWordsElsewhere, type Lines, toTable, toTabs } from './tabular.ts';

/** Cells that are taken at once, at the most. */
export const MOST_CELLS = 200_000;

export interface Clipboard {
  getData(type: string): string;
  setData(type: string, data: string): void;
}

/** Puts what is selected on the clipboard. Says why, where it does not (G46). */
export function copySelected(session: Session, clipboard: Clipboard, cut: boolean): boolean {
  const areas = selectedOnSheet(session);
  const [area, ...more] = areas;
  if (more.length > 0) {
    session.say('Several areas cannot be copied at once. Copy one at a time.');
    return false;
  }
  if (area === undefined) return false;
  if (rowsOf(area) * columnsOf(area) > MOST_CELLS) {
    session.say(
      `More than ${MOST_CELLS.toLocaleString('en-US')} cells are too many to copy at once.`,
    );
    return false;
  }
  const block = blockOf(session, area, cut);
  const lines = linesOf(session, area);
  clipboard.setData('text/plain', toTabs(lines));
  clipboard.setData('text/html', toTable(lines));
  clipboard.setData(CELLS_TYPE, remember(block));
  session.copied(block);
  return true;
}

function blockOf(session: Session, area: Area, cut: boolean): Block {
  const { at } = session;
  const book = session.settled();
  const each = <T>(of: (place: At) => T): T[][] =>
    range(area.top, area.bottom).map((row) =>
      range(area.left, area.right).map((column) => of({ sheet: at.sheet, row, column })),
    );
  return {
    kerfbook: 'cells',
    units: book.units,
    sheet: at.sheet,
    area,
    cut,
    cells: each((place) => book.copyOf(place) ?? null),
    values: each((place) => {
      const value = book.value(place);
      if (value.kind === 'number') return value.number;
      if (value.kind === 'text') return value.text;
      return value.kind === 'logical' ? value.logical : null;
    }),
  };
}

const range = (from: number, to: number): number[] =>
  Array.from({ length: to - from + 1 }, (_, i) => from + i);

/** What other programs get: what the cells show, and words never as a formula. */
export function linesOf(session: Session, area: Area): Lines {
  const { at } = session;
  const book = session.settled();
  return range(area.top, area.bottom).map((row) =>
    range(area.left, area.right).map((column) => {
      const { value, shown } = book.cell({ sheet: at.sheet, row, column });
      return value.kind === 'text' ? asWordsElsewhere(shown.text) : shown.text;
    }),
  );
}

/** Moves cells of the current sheet to where they were dropped, or copies them there; one step. */
export async function dropCells(
  session: Session,
  from: Area,
  to: Area,
  copies: boolean,
): Promise<void> {
  if (rowsOf(from) * columnsOf(from) > MOST_CELLS) {
    const most = MOST_CELLS.toLocaleString('en-US');
    session.say(`More than ${most} cells are too many to move at once.`);
    return;
  }
  const block = blockOf(session, from, !copies);
  const module = await pasting().catch(() => undefined);
  if (module === undefined)
    session.say(
      'Nothing was moved: that part of Kerfbook did not load. Check your connection, then try again.',
    );
  else module.dropBlock(session, block, { sheet: block.sheet, area: to });
}

const pasting = afterGridModule(() => import('./pasting.ts'));

/**
 * Pastes what is on the clipboard. It can be read within its own event only; where the cells go is
 * settled then too, whatever its maker does until they come.
 */
export async function paste(
  session: Session,
  clipboard: Clipboard,
  kind: PasteKind = 'all',
): Promise<void> {
  const id = clipboard.getData(CELLS_TYPE);
  const texts = { html: clipboard.getData('text/html'), text: clipboard.getData('text/plain') };
  const { at, areas } = session;
  const module = await pasting().catch(() => undefined);
  if (module !== undefined)
    return module.pasteWhat(session, { id, texts }, kind, module.spotOf({ at, areas }));
  session.say(
    'Nothing was pasted: that part of Kerfbook did not load. Check your connection, then paste again.',
  );
}

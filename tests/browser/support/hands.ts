import type { Locator } from 'playwright-core';
import { words } from './maker.ts';
import type { AtHand } from './with-maker.ts';

/** What hands do with cells of the sheet that is open, by row and column from 0. */
export interface Hands {
  at(row: number, column: number): Locator;
  /** What a cell shows, white space evened out. */
  shows(row: number, column: number): Promise<string>;
  press(key: string): Promise<void>;
  /** Types texts below each other, from a cell on. */
  type(row: number, column: number, ...texts: readonly string[]): Promise<void>;
  /** What was entered in a cell. */
  entry(row: number, column: number): Promise<string>;
}

/** The hands of a test on the page that it has at hand. */
export function handsOf(atHand: AtHand): Hands {
  const at = (row: number, column: number): Locator =>
    atHand.maker.cellAt({ sheet: '', row, column });
  const press = (key: string): Promise<void> => atHand.page.keyboard.press(key);
  return {
    at,
    press,
    shows: (row, column) => words(at(row, column)),
    async type(row, column, ...texts) {
      await at(row, column).click();
      for (const text of texts) {
        await atHand.page.keyboard.type(text);
        await press('Enter');
      }
    },
    async entry(row, column) {
      await at(row, column).click();
      return atHand.page.locator('.line-entry').inputValue();
    },
  };
}

import type { Page } from 'playwright-core';
import { words } from './maker.ts';

/** Cells by their names, in whatever workbook is open: gone to by the box that leads to any. */
export class ByName {
  readonly #page: Page;

  constructor(page: Page) {
    this.#page = page;
  }

  /** Goes to a cell, or to several from one to another (`first:last`). */
  async go(name: string): Promise<void> {
    const box = this.#page.locator('.go-to input');
    await box.fill(name);
    await box.press('Enter');
    // The keys leave the box once the cell is there; of several, no one has them.
    if (!name.includes(':')) await this.#page.locator('.ag-cell:focus').waitFor();
  }

  /** Types over a cell and leaves it with Enter. */
  async type(name: string, text: string): Promise<void> {
    await this.go(name);
    await this.#page.keyboard.type(text);
    await this.#page.keyboard.press('Enter');
  }

  /** What a cell shows, white space evened out. */
  async shows(name: string): Promise<string> {
    await this.go(name);
    return words(this.#page.locator('.ag-cell:focus .cell-words'));
  }
}

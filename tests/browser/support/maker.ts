import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type At, type BookDocument, loadText, Workbook } from '@kerfbook/workbook';
import type { Locator, Page } from 'playwright-core';
import { expect } from 'vitest';

/** The template as it ships, read without the app: it tells where the named cells are. */
export function shippedTable(): BookDocument {
  const file = join(import.meta.dirname, '../../../templates/dining-table.json');
  return documentOf(readFileSync(file, 'utf8'));
}

export function documentOf(text: string): BookDocument {
  const loaded = loadText(text);
  if (!loaded.ok) throw new Error(loaded.says);
  return loaded.document;
}

let shippedBook: Workbook | undefined;

/** What a maker does with the app: by name, with keys and pointer. */
export class Maker {
  readonly page: Page;

  constructor(page: Page) {
    this.page = page;
  }

  /** Waits until the app shows its workbook. */
  async ready(): Promise<void> {
    await this.page.locator('.ag-row .ag-cell').first().waitFor();
    await this.saved.first().waitFor();
  }

  place(name: string): At {
    // Opened once for all makers: it is asked where names are, and never changed.
    shippedBook ??= Workbook.open(shippedTable());
    const at = shippedBook.find(name);
    if (at === undefined) throw new Error(`the template has no cell named ${name}`);
    return at;
  }

  /** Turns to a sheet, unless it is the one that is shown. */
  async toSheet(id: string): Promise<void> {
    // By its place: looked for by its role, every cell of the grid would be read first.
    const sheet = this.page.locator(`.sheet-list [data-sheet="${id}"] > button:first-child`);
    if ((await sheet.getAttribute('aria-current')) !== 'page') await sheet.click();
  }

  cellAt({ row, column }: At): Locator {
    return this.page.locator(`.ag-row[row-id="${row}"] [aria-colindex="${column + 2}"]`);
  }

  /** Goes to a named cell with the pointer. */
  async go(name: string): Promise<Locator> {
    const at = this.place(name);
    await this.toSheet(at.sheet);
    const cell = this.cellAt(at);
    await this.#untilDrawn(cell);
    await cell.click();
    return cell;
  }

  /** Turns the wheel over the sheet, from its top down, until a cell is drawn: the grid draws what is near to be seen. */
  async #untilDrawn(cell: Locator): Promise<void> {
    if ((await cell.count()) > 0) return;
    await this.page.locator('.sheet-grid').hover();
    await this.page.mouse.wheel(0, -100_000);
    const isDrawn = async (): Promise<boolean> => {
      if ((await cell.count()) > 0) return true;
      await this.page.mouse.wheel(0, 300);
      return false;
    };
    await expect.poll(isDrawn, { interval: 100, timeout: 10_000 }).toBe(true);
  }

  /** Types over a named cell and leaves it with Enter. */
  async type(name: string, text: string): Promise<void> {
    await this.go(name);
    await this.page.keyboard.type(text);
    await this.page.keyboard.press('Enter');
  }

  /** What a named cell shows, white space evened out. */
  async shows(name: string): Promise<string> {
    const cell = await this.go(name);
    return words(cell);
  }

  /** A named length as a number of inches: `100 1/2` → 100.5. */
  async length(name: string): Promise<number> {
    return inches(await this.shows(name));
  }

  /** Waits until a view draws the furniture so long, in inches; drawings are in mm. */
  async drawn(view: 'plan' | 'front', length: number): Promise<void> {
    await expect
      .poll(async () => {
        const widths = await this.page
          .locator(`.kb-${view} .kb-piece`)
          .evaluateAll((pieces) => pieces.map((piece) => Number(piece.getAttribute('width'))));
        return Math.round(Math.max(...widths) * 100) / 100;
      })
      .toBe(Math.round(length * 25.4 * 100) / 100);
  }

  /** The state of every check, by its id. */
  async checkStates(): Promise<Readonly<Record<string, string>>> {
    const states = await this.page
      .locator('[data-check]')
      .evaluateAll((checks) =>
        checks.map((check) => [
          check.getAttribute('data-check') ?? '',
          check.getAttribute('data-state') ?? '',
        ]),
      );
    return Object.fromEntries(states);
  }

  /** What stands in the open editor. */
  async editorText(): Promise<string> {
    return this.page.locator('.ag-cell :is(input, textarea, select)').inputValue();
  }

  /** What is said beside the grid about the current cell. */
  get thisCell(): Locator {
    return this.page.locator('.fold-cell');
  }

  check(id: string): Locator {
    return this.page.locator(`[data-check="${id}"]`);
  }

  get saved(): Locator {
    return this.page.locator('.saved-state');
  }

  /** Waits until the app says that everything is on the device. */
  async untilSaved(): Promise<void> {
    await this.saved.getByText(/^Saved \d\d:\d\d$/).waitFor();
  }

  /** Leaves once everything is kept, and opens the app anew. */
  async comeBack(): Promise<void> {
    await this.untilSaved();
    await this.page.reload();
    await this.ready();
  }

  async workbooks(): Promise<Locator> {
    await command(this.page, 'Workbooks');
    const dialog = this.page.getByRole('dialog', { name: 'Workbooks' });
    // What is built in stands there before the list of this device is read.
    await dialog.locator('[aria-busy="false"]').waitFor();
    return dialog;
  }

  /** Saves the open workbook as a template of one's own, and stays in the workbook. */
  async saveAsTemplate(name: string): Promise<void> {
    await command(this.page, 'Save as my template');
    await this.page.getByLabel('Template name').waitFor();
    // The name that is there is chosen: what is typed takes its place.
    await this.page.keyboard.type(name);
    await this.page.keyboard.press('Enter');
    await this.page.locator('.offer', { hasText: `Saved as your template "${name}"` }).waitFor();
  }

  /** Saves the open workbook as a template of one's own, and goes on in that. */
  async saveAsAndOpen(name: string): Promise<void> {
    await this.saveAsTemplate(name);
    await this.page
      .locator('.offer')
      .getByRole('button', { name: `Open "${name}"` })
      .click();
    await this.page.locator('.top-title', { hasText: name }).waitFor();
  }

  /** Opens what a card of the list has under "More", where it is not open yet. */
  async more(card: Locator): Promise<void> {
    await card.locator('.card-more').waitFor();
    const closed = card.locator('.card-more:not([open]) > summary');
    if ((await closed.count()) > 0) await closed.click();
  }

  async closeDialog(): Promise<void> {
    await this.page.keyboard.press('Escape');
  }
}

/** Presses what stands in the menu. */
export async function command(page: Page, says: string): Promise<void> {
  // The menu by its place: looked for by its role, every cell of the grid would be read first.
  await page.locator('.top-menu').click();
  await page.locator('.rare-menu').getByRole('button', { name: says, exact: true }).click();
}

/** Where the workbook came from, as the panel behind its title says. */
export async function origin(page: Page): Promise<string> {
  await page.locator('.top-title').click();
  const dialog = page.getByRole('dialog', { name: 'This workbook' });
  // Another workbook that is opened just then closes it: whoever asks again soon has it.
  await dialog.waitFor({ timeout: 5_000 });
  const said = await words(dialog);
  await page.keyboard.press('Escape');
  return said;
}

/** Turns to one of the activities of the top line. */
export async function activity(page: Page, says: string): Promise<void> {
  await page.locator('.activities').getByRole('button', { name: says }).click();
}

/** What an element says, as it is seen, white space evened out. */
export async function words(locator: Locator): Promise<string> {
  await locator.first().waitFor();
  return (await locator.allInnerTexts()).join(' ').replaceAll(/\s+/g, ' ').trim();
}

/** Where something stands once it stays there. */
export async function standing(one: Locator): ReturnType<Locator['boundingBox']> {
  let box = await one.boundingBox();
  const stays = async (): Promise<boolean> => {
    const before = box;
    box = await one.boundingBox();
    return before !== null && box?.x === before.x && box.y === before.y;
  };
  await expect.poll(stays, { interval: 200 }).toBe(true);
  return box;
}

function inches(text: string): number {
  const [, whole = '0', over = '0', under = '1'] =
    /^(-?\d+(?:\.\d+)?)?(?: ?(\d+)\/(\d+))?$/.exec(text) ?? [];
  const value = Number(whole) + Number(over) / Number(under);
  if (!/\d/.test(text) || Number.isNaN(value)) throw new Error(`"${text}" is not a length`);
  return value;
}

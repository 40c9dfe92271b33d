import { describe, expect, it } from 'vitest';
import { HIGH, SCREEN } from './support/app.ts';
import { handsOf } from './support/hands.ts';
import { command, words } from './support/maker.ts';
import { withMaker } from './support/with-maker.ts';

/** Rows, columns, sheets and names: changing the shape of a workbook, with references following. */

const atHand = withMaker({ shared: true, viewport: HIGH });
const { at, shows, press, type, entry } = handsOf(atHand);

const FREE = 33;
const MOD = 'ControlOrMeta';
const dialog = () => atHand.page.getByRole('dialog');

/** Chooses from the menu of a cell. */
async function choose(row: number, column: number, item: string | RegExp): Promise<void> {
  await at(row, column).click({ button: 'right' });
  await atHand.page.getByRole('menuitem', { name: item }).click();
}

/** Chooses from the menu of a row's number. */
async function chooseOfRow(row: number, item: string | RegExp): Promise<void> {
  await rowNumber(row).click({ button: 'right' });
  await atHand.page.getByRole('menuitem', { name: item }).click();
}

const rowNumber = (row: number) => atHand.page.locator(`.ag-row[row-id="${row}"] .row-number`);
const head = (column: number) => atHand.page.locator(`.ag-header-cell[col-id="c${column}"]`);

/** Chooses from the menu of a column's head. */
async function chooseOfColumn(column: number, item: string | RegExp): Promise<void> {
  await head(column).click({ button: 'right' });
  await atHand.page.getByRole('menuitem', { name: item }).click();
}

/** Chooses from the menu of the current sheet, in their list. */
async function chooseOfSheet(item: string | RegExp): Promise<void> {
  await atHand.page.locator('.sheet-list [aria-current]').click({ button: 'right' });
  await atHand.page.getByRole('menuitem', { name: item }).click();
}

const sheetNames = () => atHand.page.locator('.sheet-list .sheet-name').allInnerTexts();

describe('rows and columns', () => {
  it('G38 G39 are put in by the menu and the key, and formulas follow', async () => {
    await type(FREE, 0, '5');
    await type(FREE + 1, 0, '6');
    await type(FREE + 2, 0, `=SUM(A${FREE + 1}:A${FREE + 2})`);
    await choose(FREE + 1, 0, `Insert above row ${FREE + 2}`);
    expect(await entry(FREE + 3, 0)).toBe(`=SUM(A${FREE + 1}:A${FREE + 3})`);
    await at(FREE, 0).click();
    await press('Alt+Insert');
    expect(await entry(FREE + 4, 0)).toBe(`=SUM(A${FREE + 2}:A${FREE + 4})`);
    await press(`${MOD}+z`);
    await press(`${MOD}+z`);
    expect(await entry(FREE + 2, 0)).toBe(`=SUM(A${FREE + 1}:A${FREE + 2})`);
    await choose(FREE, 0, 'Insert before column A');
    expect(await entry(FREE + 2, 1)).toBe(`=SUM(B${FREE + 1}:B${FREE + 2})`);
  });

  it('G39 offer to take in what is typed right under a range', async () => {
    await type(FREE, 0, '5');
    await type(FREE + 1, 0, '6');
    await type(FREE, 2, `=SUM(A${FREE + 1}:A${FREE + 2})`);
    await type(FREE + 2, 0, '7');
    await expect
      .poll(() => words(atHand.page.locator('.offer')))
      .toContain(`Include A${FREE + 3} too?`);
    await atHand.page.getByRole('button', { name: 'Include it' }).click();
    await expect.poll(() => shows(FREE, 2)).toContain('18');
    expect(await atHand.page.locator('.offer').count()).toBe(0);
    await press(`${MOD}+z`);
    await expect.poll(() => shows(FREE, 2)).toContain('11');
  });

  it('G40 are deleted after saying who uses what would go, and come back', async () => {
    await atHand.maker.go('top_length');
    await atHand.page.keyboard.press('Shift+F10');
    await atHand.page.getByRole('menuitem', { name: 'Delete row 6' }).click();
    await expect.poll(() => words(dialog())).toMatch(/cells use row 6.*Long aprons Base!B11/);
    await dialog().getByRole('button', { name: 'Delete row 6' }).click();
    await expect.poll(() => words(at(5, 0))).toContain('Width of the top');
    await atHand.page
      .getByRole('navigation', { name: 'Sheets' })
      .getByRole('button', { name: /^Base/ })
      .click();
    await expect.poll(() => atHand.page.locator('.ag-cell.is-error').count()).toBeGreaterThan(0);
    await at(0, 0).click();
    await press(`${MOD}+z`);
    await expect.poll(() => atHand.page.locator('.ag-cell.is-error').count()).toBe(0);
  });
});

describe('columns', () => {
  it('G44 are hidden and shown again, skipped by arrows, and go on calculating', async () => {
    await chooseOfColumn(2, 'Hide column C');
    await expect.poll(() => head(2).count()).toBe(0);
    await at(5, 1).click();
    await press('ArrowRight');
    expect(await atHand.page.locator('.go-to input').inputValue()).toBe('D6');
    await press('ArrowLeft');
    expect(await atHand.page.locator('.go-to input').inputValue()).toBe('top_length');
    await atHand.maker.untilSaved();
    await atHand.page.reload();
    await atHand.maker.ready();
    expect(await head(2).count()).toBe(0);
    await chooseOfColumn(1, 'Show 1 hidden column');
    await expect.poll(() => head(2).count()).toBe(1);
    await press(`${MOD}+z`);
    await expect.poll(() => head(2).count()).toBe(0);
  });

  it('G44 rows are grouped, folded with one press or from the menu, and kept so', async () => {
    for (const [i, text] of ['5', '6', '7'].entries()) await type(FREE + 1 + i, 0, text);
    await type(FREE + 4, 0, `=SUM(A${FREE + 2}:A${FREE + 4})`);
    await rowNumber(FREE + 1).click();
    await rowNumber(FREE + 3).click({ modifiers: ['Shift'] });
    const three = `rows ${FREE + 2} to ${FREE + 4}`;
    await chooseOfRow(FREE + 2, `Group ${three}`);
    const turn = atHand.page.locator('.group-turn');
    await turn.waitFor();
    expect(await turn.getAttribute('aria-label')).toBe(`Fold ${three}`);
    await turn.click();
    await expect.poll(() => at(FREE + 2, 0).count()).toBe(0);
    expect(await shows(FREE + 4, 0)).toContain('18');
    const told = atHand.page.locator('main > .visually-hidden[role="status"]');
    await expect.poll(() => words(told)).toBe(`Rows ${FREE + 2} to ${FREE + 4} folded, 3 rows.`);
    // The current cell has gone to the row that heads them, and arrows pass them over.
    expect(await atHand.page.locator('.go-to input').inputValue()).toBe(`A${FREE + 1}`);
    await press('ArrowDown');
    expect(await atHand.page.locator('.go-to input').inputValue()).toBe(`A${FREE + 5}`);
    await atHand.maker.untilSaved();
    await atHand.page.reload();
    await atHand.maker.ready();
    await at(FREE, 0).click();
    await press('Shift+Space');
    await press('Shift+F10');
    await atHand.page.getByRole('menuitem', { name: `Unfold ${three}` }).press('Enter');
    await expect.poll(() => shows(FREE + 2, 0)).toContain('6');
    await at(FREE + 2, 0).click();
    await press('Alt+Insert');
    await expect
      .poll(() => turn.getAttribute('aria-label'))
      .toBe(`Fold rows ${FREE + 2} to ${FREE + 5}`);
    await rowNumber(FREE + 1).click();
    await rowNumber(FREE + 4).click({ modifiers: ['Shift'] });
    await chooseOfRow(FREE + 2, `Ungroup rows ${FREE + 2} to ${FREE + 5}`);
    await expect.poll(() => turn.count()).toBe(0);
    await press(`${MOD}+z`);
    await expect.poll(() => turn.count()).toBe(1);
  });

  it('G44 rows are hidden and shown again, skipped by arrows, and left out of a copy of what is seen', async () => {
    await type(FREE, 0, '1');
    await type(FREE + 1, 0, '2');
    await type(FREE + 2, 0, '3');
    await type(FREE + 3, 0, `=SUM(A${FREE + 1}:A${FREE + 3})`);
    await chooseOfRow(FREE + 1, `Hide row ${FREE + 2}`);
    await expect.poll(() => at(FREE + 1, 0).count()).toBe(0);
    expect(await shows(FREE + 3, 0)).toContain('6');
    await at(FREE, 0).click();
    await press('ArrowDown');
    expect(await atHand.page.locator('.go-to input').inputValue()).toBe(`A${FREE + 3}`);
    await press('ArrowUp');
    expect(await atHand.page.locator('.go-to input').inputValue()).toBe(`A${FREE + 1}`);
    await atHand.page.keyboard.type('4');
    await press('Enter');
    expect(await shows(FREE + 3, 0)).toContain('9');
    await at(FREE, 0).click();
    await at(FREE + 2, 0).click({ modifiers: ['Shift'] });
    await expect
      .poll(() => words(atHand.page.locator('.table-main > [role="status"].visually-hidden')))
      .toContain('1 row of them hidden');
    const handed = await atHand.page.evaluateHandle(() => {
      const box = { text: '' };
      const keep = DataTransfer.prototype.setData;
      DataTransfer.prototype.setData = function (this: DataTransfer, kind, data): void {
        if (kind === 'text/plain') box.text = data;
        keep.call(this, kind, data);
      };
      return box;
    });
    await choose(FREE, 0, 'Copy visible cells');
    await expect.poll(() => handed.evaluate(({ text }) => text)).toBe('4\r\n3');
    await atHand.maker.untilSaved();
    await atHand.page.reload();
    await atHand.maker.ready();
    await chooseOfRow(FREE, 'Show 1 hidden row');
    await expect.poll(() => shows(FREE + 1, 0)).toContain('2');
    await press(`${MOD}+z`);
    await expect.poll(() => at(FREE + 1, 0).count()).toBe(0);
  });

  it('G58 rows stay in view when they are kept there, and can be worked on', async () => {
    // In a higher window there would be less to scroll.
    await atHand.page.setViewportSize(SCREEN);
    await chooseOfRow(4, 'Pin rows 1 to 5');
    // Below the heads: a notice may come over the grid meanwhile.
    const top = (row: number) =>
      at(row, 1).evaluate((one) => {
        const head = one.closest('.sheet-grid')?.querySelector('.ag-header-cell');
        const above = head?.getBoundingClientRect().top ?? 0;
        return Math.round(one.getBoundingClientRect().top - above);
      });
    const before = await top(4);
    await at(5, 1).click();
    await press(`${MOD}+End`);
    for (let i = 0; i < 2; i += 1) await press('PageDown');
    expect(await top(4)).toBe(before);
    await at(4, 1).click();
    expect(await atHand.page.locator('.go-to input').inputValue()).toBe('B5');
    await press('ArrowDown');
    expect(await atHand.page.locator('.go-to input').inputValue()).toBe('top_length');
    await press('ArrowUp');
    await atHand.page.keyboard.type('kept');
    await press('Enter');
    expect(await shows(4, 1)).toBe('kept');
    await at(3, 1).click();
    await at(6, 1).click({ modifiers: ['Shift'] });
    expect(await atHand.page.locator('.ag-cell[aria-selected="true"]').count()).toBe(4);
    await atHand.maker.untilSaved();
    await atHand.page.reload();
    await atHand.maker.ready();
    expect(await shows(4, 1)).toBe('kept');
    await chooseOfRow(4, 'Unpin rows');
    await at(5, 1).click();
    await press(`${MOD}+End`);
    await press('PageDown');
    await expect.poll(() => at(4, 1).count()).toBe(0);
  });

  it('G58 stay in view when they are kept there', async () => {
    await chooseOfColumn(0, 'Pin column A');
    const left = () => head(0).evaluate((one) => Math.round(one.getBoundingClientRect().left));
    const before = await left();
    await at(5, 3).click();
    for (let i = 0; i < 8; i += 1) await press('ArrowRight');
    expect(await left()).toBe(before);
    await at(5, 0).click();
    expect(await atHand.page.locator('.go-to input').inputValue()).toBe('A6');
    await chooseOfColumn(0, 'Unpin columns');
    await press(`${MOD}+z`);
    await press(`${MOD}+z`);
    // Also where the current cell was scrolled away.
    await press(`${MOD}+Home`);
    await at(0, 0).click();
    await head(0).click({ button: 'right' });
    expect(await atHand.page.getByRole('menuitem', { name: 'Unpin columns' }).count()).toBe(0);
  });
});

describe('sorting', () => {
  it('G43 takes rows along with their formulas, leaves a total below alone, and is one step', async () => {
    for (const [i, [part, count]] of [
      ['leg', '4'],
      ['apron', '2'],
      ['top', '1'],
    ].entries()) {
      await type(FREE + i, 0, part ?? '');
      await type(FREE + i, 1, count ?? '');
      await type(FREE + i, 2, `=B${FREE + i + 1}*10`);
    }
    await type(FREE + 3, 2, `=SUM(C${FREE + 1}:C${FREE + 3})`);
    await at(FREE, 0).click();
    await at(FREE + 2, 2).click({ modifiers: ['Shift'] });
    await atHand.page.keyboard.press('Shift+F10');
    await atHand.page.getByRole('menuitem', { name: 'Sort by column A, smallest first' }).click();
    await expect.poll(() => shows(FREE, 0)).toContain('apron');
    expect(await shows(FREE, 2)).toContain('20');
    expect(await entry(FREE + 1, 2)).toBe(`=B${FREE + 2}*10`);
    expect(await entry(FREE + 3, 2)).toBe(`=SUM(C${FREE + 1}:C${FREE + 3})`);
    expect(await shows(FREE + 3, 2)).toContain('70');
    await press(`${MOD}+z`);
    await expect.poll(() => shows(FREE, 0)).toContain('leg');
  });

  it('G35 shows formulas instead of results and back', async () => {
    await at(18, 1).click();
    await press(`${MOD}+\``);
    await expect.poll(() => shows(19, 1)).toContain('=KNEE_ROOM(');
    await press(`${MOD}+\``);
    await expect.poll(() => shows(19, 1)).toContain('25');
  });
});

describe('sheets', () => {
  it('G45 are added, named, moved, copied and deleted, and all of it undone', async () => {
    const before = await sheetNames();
    await atHand.page.getByRole('button', { name: '+ Sheet' }).click();
    await expect.poll(sheetNames).toHaveLength(before.length + 1);
    await type(0, 0, '=top_length*2');
    await expect.poll(() => shows(0, 0)).toContain('168');
    await chooseOfSheet('Rename …');
    await dialog().getByLabel('Sheet name').fill("Bob's parts");
    await dialog().getByRole('button', { name: 'Rename' }).click();
    await expect.poll(sheetNames).toContain("Bob's parts");
    await atHand.page
      .getByRole('navigation', { name: 'Sheets' })
      .getByRole('button', { name: /^Cost/ })
      .click();
    await type(FREE, 0, "='Bob''s parts'!A1");
    await expect.poll(() => shows(FREE, 0)).toContain('168');
    await atHand.page
      .getByRole('navigation', { name: 'Sheets' })
      .getByRole('button', { name: /^Bob/ })
      .click();
    await chooseOfSheet('Move later');
    await chooseOfSheet('Duplicate');
    await expect.poll(sheetNames).toContain("Bob's parts 2");
    await atHand.page
      .getByRole('navigation', { name: 'Sheets' })
      .getByRole('button', { name: "Bob's parts", exact: true })
      .click();
    await chooseOfSheet('Delete …');
    await expect.poll(() => words(dialog())).toContain('may then show #REF!');
    await dialog().getByRole('button', { name: "Delete Bob's parts" }).click();
    await expect.poll(sheetNames).not.toContain("Bob's parts");
    await at(0, 0).click();
    for (let i = 0; i < 7; i += 1) await press(`${MOD}+z`);
    await expect.poll(sheetNames).toEqual(before);
  });
});

describe('names', () => {
  it('G37 are given, refused with an offer, renamed with formulas following, and taken away', async () => {
    await type(FREE, 0, '12');
    await choose(FREE, 0, 'Name …');
    await dialog().getByRole('textbox').fill('Leg1');
    await dialog().getByRole('button', { name: 'Save name' }).click();
    await expect.poll(() => words(dialog())).toContain('Leg_1 would do');
    await dialog().getByRole('textbox').fill('rail');
    await dialog().getByRole('button', { name: 'Save name' }).click();
    await type(FREE + 1, 0, '=rail*2');
    await expect.poll(() => shows(FREE + 1, 0)).toContain('24');
    await command(atHand.page, 'Names');
    await dialog().getByLabel('Find').fill('rail');
    const row = dialog().locator('li', { hasText: 'rail' });
    expect(await words(row)).toContain('used by');
    await row.getByRole('button', { name: 'Remove' }).click();
    await expect.poll(() => words(row.getByRole('alert'))).toContain('rail');
    await row.getByRole('button', { name: 'Rename' }).click();
    await dialog().getByLabel('New name for rail').fill('rail_w');
    await dialog().getByRole('button', { name: 'Rename' }).click();
    await dialog().getByRole('button', { name: 'Close' }).click();
    expect(await entry(FREE + 1, 0)).toBe('=rail_w*2');
  });
});

describe('finding', () => {
  it('G60 looks through all sheets, goes there, and replaces in one step', async () => {
    await at(5, 0).click();
    await press(`${MOD}+h`);
    await dialog().getByLabel('Find').fill('Overhead');
    await expect.poll(() => words(dialog())).toMatch(/\d+ found/);
    await dialog().getByLabel('Replace with').fill('Shop costs');
    await dialog()
      .getByRole('button', { name: /^Replace in/ })
      .click();
    await dialog().getByLabel('Find').fill('Shop costs');
    await dialog().locator('.found-list button').first().click();
    await expect
      .poll(() => words(atHand.page.locator('nav [aria-current="page"]')))
      .toContain('Cost');
    expect(await words(atHand.page.locator('.ag-cell-focus'))).toContain('Shop costs');
    await press(`${MOD}+z`);
    await expect.poll(() => words(atHand.page.locator('.ag-cell-focus'))).toContain('Overhead');
  });
});

describe('what a cell is', () => {
  it('G59 is chosen in one place, and the number behind it stays', async () => {
    await type(FREE, 0, '19.0625');
    await choose(FREE, 0, /^Format/);
    await dialog().getByLabel('Kind', { exact: true }).selectOption('length');
    await dialog().getByLabel('Shown as').selectOption('fraction');
    await dialog().getByLabel('To the nearest').selectOption('16');
    await dialog().getByRole('button', { name: 'Apply format' }).click();
    await expect.poll(() => shows(FREE, 0)).toMatch(/19 ?1\/16/);
    await choose(FREE, 0, /^Format/);
    await dialog().getByLabel('To the nearest').selectOption('2');
    await dialog().getByRole('button', { name: 'Apply format' }).click();
    await expect.poll(() => shows(FREE, 0)).toMatch(/19$/);
    expect(await words(atHand.page.locator('.formula-line'))).toContain('exactly 19.0625');
  });

  it('G61 is made bold, given a background and put at the right; all of it is kept', async () => {
    await type(FREE, 0, 'Legs');
    await at(FREE, 0).click();
    await press(`${MOD}+b`);
    await expect.poll(() => at(FREE, 0).getAttribute('class')).toContain('is-bold');
    await choose(FREE, 0, 'Format …');
    expect(await dialog().getByLabel('Bold').isChecked()).toBe(true);
    await dialog().getByLabel('Italic').check();
    await dialog().getByLabel('Align').selectOption('right');
    await dialog().getByLabel('Fill').selectOption('clay');
    await dialog().getByRole('button', { name: 'Apply format' }).click();
    await atHand.maker.untilSaved();
    await atHand.page.reload();
    await atHand.maker.ready();
    const cell = at(FREE, 0);
    expect(await cell.getAttribute('class')).toContain('is-italic');
    expect(await cell.getAttribute('data-background')).toBe('clay');
    expect(await cell.getAttribute('data-align')).toBe('end');
    const plain = await at(FREE, 2).evaluate((one) => getComputedStyle(one).backgroundColor);
    expect(await cell.evaluate((one) => getComputedStyle(one).backgroundColor)).not.toBe(plain);
    await cell.click();
    await press(`${MOD}+b`);
    await expect.poll(() => at(FREE, 0).getAttribute('class')).not.toContain('is-bold');
  });

  it('G61 bears a sign while a check of it does not hold, each cell its own', async () => {
    await type(FREE, 0, '8');
    await type(FREE + 1, 0, '13');
    await type(FREE + 2, 0, '9');
    await at(FREE, 0).click();
    await at(FREE + 2, 0).click({ modifiers: ['Shift'] });
    await choose(FREE, 0, 'Add a check …');
    await dialog().getByLabel('Name').fill('Fits the planer');
    const formula = dialog().getByLabel('What must be true');
    expect(await formula.inputValue()).toBe(`=A${FREE + 1}<=`);
    await formula.fill(`=A${FREE + 1}<=12`);
    await dialog()
      .getByLabel(/A check for each of these 3 cells/)
      .check();
    await dialog().getByLabel('What to say, and').fill('The planer takes 12 in.');
    await dialog().getByLabel('If it is not true').selectOption('stop');
    await dialog().getByRole('button', { name: 'Save check' }).click();
    const marked = (row: number) => at(row, 0).getAttribute('class');
    await expect.poll(() => marked(FREE + 1)).toContain('is-marked-stop');
    expect(await marked(FREE)).not.toContain('is-marked');
    // Where the pointer is, the browser tells the title of what is under it.
    const told = await at(FREE + 1, 0)
      .locator('.cell-words')
      .evaluate((inner) => {
        const { x, y, width, height } = inner.getBoundingClientRect();
        return document.elementFromPoint(x + width / 2, y + height / 2)?.getAttribute('title');
      });
    expect(told).toBe('The planer takes 12 in.');
    await type(FREE, 0, '14');
    await expect.poll(() => marked(FREE)).toContain('is-marked-stop');
    await type(FREE + 1, 0, '11');
    await expect.poll(() => marked(FREE + 1)).not.toContain('is-marked');
    await at(FREE, 0).click();
    await expect
      .poll(() => words(atHand.page.locator('.beside')))
      .toContain('The planer takes 12 in.');
  });

  it('G26 G61 answers when only inputs may be changed, and says how to change that', async () => {
    await command(atHand.page, 'Lock formulas');
    await atHand.maker.go('apron_long');
    const before = await atHand.maker.shows('apron_long');
    await atHand.page.keyboard.type('5');
    await expect
      .poll(() => words(atHand.page.getByRole('alert')))
      .toMatch(
        /stays as it is: .* locked, and only its inputs can be changed\. Choose "Unlock formulas"/,
      );
    await press('Escape');
    expect(await atHand.maker.shows('apron_long')).toBe(before);
    await press('Delete');
    expect(await atHand.maker.shows('apron_long')).toBe(before);
    await atHand.maker.type('top_length', '100');
    await expect.poll(() => atHand.maker.shows('apron_long')).not.toBe(before);
    await command(atHand.page, 'Unlock formulas');
    await atHand.maker.type('apron_long', '5');
    await expect.poll(() => atHand.maker.shows('apron_long')).toContain('5');
  });

  it('G61 may take only what it allows, and carry a remark', async () => {
    await type(FREE, 0, '5');
    await choose(FREE, 0, /^Format/);
    await dialog().getByLabel('At most').fill('10');
    await dialog().getByRole('button', { name: 'Apply format' }).click();
    await type(FREE, 0, '12');
    await at(FREE, 0).click();
    await expect
      .poll(() => words(atHand.page.locator('.fold-cell .trouble')))
      .toContain('10 or less');
    await choose(FREE, 0, /^Format/);
    await dialog().getByLabel('At most').fill('ten');
    await dialog().getByRole('button', { name: 'Apply format' }).click();
    await expect.poll(() => words(dialog().getByRole('alert'))).toContain('"ten"');
    await dialog().getByRole('button', { name: 'Cancel' }).click();
    await choose(FREE, 0, 'Remark …');
    await dialog().getByLabel('Shown with the cell').fill('Measured twice.');
    await dialog().getByRole('button', { name: 'Save remark' }).click();
    await expect.poll(() => words(atHand.maker.thisCell)).toContain('Measured twice.');
  });
});

describe('moving about', () => {
  it('G10 goes to a range that is typed in the box', async () => {
    const box = atHand.page.getByLabel('Name or address of the cell; type one to go there');
    await box.fill('A6:B8');
    await box.press('Enter');
    await expect
      .poll(() => words(atHand.page.locator('.selection-line')))
      .toContain('2 columns by 3 rows');
  });

  it('G07 F6 leaves the grid, goes round, and comes back to the same cell', async () => {
    await at(7, 1).click();
    const where = () =>
      atHand.page.evaluate(() =>
        [
          '.sheet-grid',
          '.formula-line',
          '.drawing-pane',
          '.beside',
          '.top-line',
          '.sheets-side',
        ].find((one) => document.activeElement?.closest(one)),
      );
    await press('F6');
    expect(await where()).toBe('.formula-line');
    await press('F6');
    expect(await where()).toBe('.drawing-pane');
    await press('F6');
    expect(await where()).toBe('.beside');
    await press('F6');
    expect(await where()).toBe('.top-line');
    await press('F6');
    expect(await where()).toBe('.sheets-side');
    await press('F6');
    expect(await where()).toBe('.sheet-grid');
    expect(await words(atHand.page.locator('.go-to input'))).toBe('');
    expect(await atHand.page.locator('.go-to input').inputValue()).toBe('top_thickness');
    await press('Shift+F6');
    expect(await where()).toBe('.sheets-side');
  });
});

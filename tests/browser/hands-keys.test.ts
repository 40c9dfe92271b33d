import { beforeEach, describe, expect, it } from 'vitest';
import { handsOf } from './support/hands.ts';
import { command, words } from './support/maker.ts';
import { withMaker } from './support/with-maker.ts';

/** What hands do without looking, with real keys, on free cells under the dining table's brief. */

const atHand = withMaker({ shared: true });
const { at, shows, press, type } = handsOf(atHand);
const MOD = process.platform === 'darwin' ? 'Meta' : 'Control';
const FREE = 40;

// The free rows are in sight at the lower end of the sheet.
beforeEach(async () => {
  await box().fill('A58');
  await box().press('Enter');
  await at(FREE, 0).waitFor();
});

const entry = () => atHand.page.locator('.line-entry');
const box = () => atHand.page.getByLabel('Name or address of the cell; type one to go there');

describe('what is typed', () => {
  it('G20 Y03 Y05 is a percent, money or a date by how it is written, and goes on as one in formulas', async () => {
    await type(FREE, 0, '15%', '$37.50', '14 Mar 2026', '3/4', '4/1/2026');
    await type(FREE, 1, '=A41/100*200', '=A42*2', '=A43+7', '=A44*4', '=A45-A43');
    await expect.poll(() => shows(FREE, 0)).toBe('15');
    expect(await shows(FREE + 1, 0)).toBe('$37.50');
    expect(await shows(FREE + 2, 0)).toBe('2026-03-14');
    expect(await shows(FREE + 3, 0)).toBe('3/4');
    expect(await shows(FREE + 4, 0)).toBe('2026-04-01');
    expect(await shows(FREE, 1)).toBe('30');
    expect(await shows(FREE + 1, 1)).toBe('$75.00');
    expect(await shows(FREE + 2, 1)).toBe('2026-03-21');
    expect(await shows(FREE + 3, 1)).toBe('3');
    expect(await shows(FREE + 4, 1)).toBe('18');
  });

  it('Y06 N8 that may be a fraction or a day is asked about, and one press answers', async () => {
    await type(FREE, 0, '3/14');
    const question = atHand.page.getByText(/^Is "3\/14" a fraction or 14 March \d{4}\?$/);
    await question.waitFor();
    await atHand.page.getByRole('button', { name: '0 3/14', exact: true }).click();
    await expect.poll(() => shows(FREE, 0)).toBe('3/14');
    expect(await question.count()).toBe(0);
  });
});

describe('writing a formula', () => {
  it('G30 Y27 its brackets and quotes close themselves, in the cell and on the line', async () => {
    await at(FREE, 0).click();
    await atHand.page.keyboard.type('=MAX(1,(2');
    expect(await entry().inputValue()).toBe('=MAX(1,(2))');
    await press(')');
    await press(')');
    expect(await entry().inputValue()).toBe('=MAX(1,(2))');
    await press('Backspace');
    await press('Backspace');
    await press('Backspace');
    await press('Backspace');
    expect(await entry().inputValue()).toBe('=MAX(1,');
    await press('Escape');
    await entry().click();
    await atHand.page.keyboard.type('="oak"&(');
    expect(await entry().inputValue()).toBe('="oak"&()');
    await press('Backspace');
    expect(await entry().inputValue()).toBe('="oak"&');
    await atHand.page.keyboard.type('" board"');
    await press('Enter');
    await expect.poll(() => shows(FREE, 0)).toBe('oak board');
  });
});

describe('the usual keys', () => {
  it('G24 Y24 Alt and = write the sum of the numbers above, and put sums under a selection', async () => {
    await type(FREE, 0, '2', '3', '4');
    await press('Alt+=');
    expect(await entry().inputValue()).toBe('=SUM(A41:A43)');
    await press('Enter');
    await expect.poll(() => shows(FREE + 3, 0)).toBe('9');
    await type(FREE, 1, '5', '6');
    await at(FREE, 1).click();
    await press('Shift+ArrowDown');
    await press('Alt+=');
    await expect.poll(() => shows(FREE + 2, 1)).toBe('11');
    await press(`${MOD}+z`);
    await expect.poll(() => shows(FREE + 2, 1)).toBe('');
  });

  it('Y25 N8 Ctrl and ; put in today', async () => {
    await at(FREE, 0).click();
    await press(`${MOD}+;`);
    const now = await atHand.page.evaluate(() => {
      const today = new Date();
      return [today.getFullYear(), today.getMonth() + 1, today.getDate()];
    });
    const [year, month, day] = now.map((n) => String(n).padStart(2, '0'));
    await expect.poll(() => shows(FREE, 0)).toBe(`${year}-${month}-${day}`);
  });

  it('G38 Y26 Ctrl with plus and minus put in and delete whole rows, and leave the page its zoom', async () => {
    await type(FREE, 0, 'first', 'second');
    await at(FREE + 1, 0).click();
    await press('Shift+ ');
    await press(`${MOD}++`);
    await expect.poll(() => shows(FREE + 2, 0)).toBe('second');
    expect(await shows(FREE + 1, 0)).toBe('');
    await press(`${MOD}+-`);
    const dialog = atHand.page.getByRole('dialog', { name: /^Delete row/ });
    await dialog.getByRole('button', { name: /^Delete row/ }).click();
    await expect.poll(() => shows(FREE + 1, 0)).toBe('second');
    await press(`${MOD}+z`);
    await expect.poll(() => shows(FREE + 2, 0)).toBe('second');
    await press(`${MOD}+z`);
    await expect.poll(() => shows(FREE + 1, 0)).toBe('second');
    // With one cell selected the key is the browser's. It is listened for before it is pressed.
    await at(FREE, 0).click();
    await atHand.page.evaluate(() => {
      window.addEventListener('keydown', (event) => {
        if (event.key === '-') Reflect.set(window, 'minusTaken', event.defaultPrevented);
      });
    });
    await press(`${MOD}+-`);
    await expect
      .poll(() => atHand.page.evaluate(() => Reflect.get(window, 'minusTaken')))
      .toBe(false);
  });
});

describe('the name box', () => {
  const name = async (text: string): Promise<void> => {
    await box().fill(text);
    await box().press('Enter');
  };

  it('G37 Y13 names the current cell, goes there, and offers what would do', async () => {
    await type(FREE, 0, '12');
    await at(FREE, 0).click();
    await name('slat_gap');
    await expect.poll(() => box().inputValue()).toBe('slat_gap');
    await type(FREE, 1, '=slat_gap*2');
    await expect.poll(() => shows(FREE, 1)).toBe('24');
    await name('slat_gap');
    await expect.poll(() => box().inputValue()).toBe('slat_gap');
    await press(`${MOD}+z`);
    await press(`${MOD}+z`);
    await at(FREE, 0).click();
    expect(await box().inputValue()).toBe('A41');
    // What is no name says why, and what would do is one press away.
    await name('slat gap');
    const asked = atHand.page.locator('.go-to').getByRole('alert');
    expect(await words(asked)).toContain('A name begins with a letter');
    await asked.getByRole('button', { name: 'Name A41 slat_gap' }).click();
    await expect.poll(() => box().inputValue()).toBe('slat_gap');
  });

  it('G10 Y14 asks where a word is nearly the name of another cell', async () => {
    await type(FREE, 0, '12');
    await at(FREE, 0).click();
    await name('top_lenght');
    const asked = atHand.page.locator('.go-to').getByRole('alert');
    expect(await words(asked)).toContain('There is no cell called top_lenght.');
    await asked.getByRole('button', { name: 'Go to top_length' }).click();
    await expect.poll(() => box().inputValue()).toBe('top_length');
    await atHand.maker
      .cellAt(atHand.maker.place('top_length'))
      .and(atHand.page.locator(':focus'))
      .waitFor();
  });
});

describe('filling', () => {
  it('G42 Y10 goes on with days of the week and months, in their capitals', async () => {
    await type(FREE, 0, 'Mon');
    await type(FREE, 1, 'JAN');
    await type(FREE, 2, '2026-01-31', '2026-02-28');
    const drag = async (fromRow: number, column: number, toRow: number): Promise<void> => {
      const handle = at(fromRow, column).locator('.fill-handle');
      await handle.hover();
      await atHand.page.mouse.down();
      await at(toRow, column).hover();
      await atHand.page.mouse.up();
    };
    await at(FREE, 0).click();
    await drag(FREE, 0, FREE + 3);
    expect(await shows(FREE + 3, 0)).toBe('Thu');
    await at(FREE, 1).click();
    await drag(FREE, 1, FREE + 2);
    expect(await shows(FREE + 2, 1)).toBe('MAR');
    await at(FREE, 2).click();
    await press('Shift+ArrowDown');
    await drag(FREE + 1, 2, FREE + 3);
    expect(await shows(FREE + 2, 2)).toBe('2026-03-31');
    expect(await shows(FREE + 3, 2)).toBe('2026-04-30');
  });
});

describe('a number that does not fit its column', () => {
  /** What is painted in the place of the words of a cell. */
  const painted = (row: number, column: number): Promise<string> =>
    at(row, column)
      .locator('.cell-words')
      .evaluate((words) => getComputedStyle(words, '::after').content);

  it('G59 Y07 shows fewer decimals or signs, never a cut number, and is whole on the line', async () => {
    // A column that nothing else stands in, far to the right.
    await atHand.page.setViewportSize({ width: 2600, height: 900 });
    await type(FREE, 7, '1234567.891', '1234567890', '12.5');
    expect(await painted(FREE, 7)).toBe('none');
    const head = atHand.page.locator('.ag-header-cell[col-id="c7"]');
    const edge = await head.locator('.ag-header-cell-resize').boundingBox();
    const box = await head.boundingBox();
    if (box === null || edge === null) throw new Error('the column has no edge to drag');
    await atHand.page.mouse.move(edge.x + edge.width / 2, edge.y + 8);
    await atHand.page.mouse.down();
    await atHand.page.mouse.move(box.x + 90, edge.y + 8, { steps: 4 });
    await atHand.page.mouse.up();
    await expect.poll(() => painted(FREE, 7)).toBe('"≈ 1234568"');
    await expect.poll(() => painted(FREE + 1, 7)).toMatch(/^"#{4,}"$/);
    // Nothing of what is painted is cut off.
    for (const row of [FREE, FREE + 1]) {
      const words = at(row, 7).locator('.cell-words');
      expect(await words.evaluate((one) => one.scrollWidth - one.clientWidth)).toBeLessThan(1);
    }
    expect(await painted(FREE + 2, 7)).toBe('none');
    // Whoever reads the cell aloud or looks for it finds the whole number.
    expect(
      await at(FREE + 1, 7)
        .locator('.cell-words')
        .textContent(),
    ).toBe('1234567890');
    await at(FREE + 1, 7).click();
    expect(await words(atHand.page.locator('.formula-line .exact'))).toContain('1234567890');
    await press(`${MOD}+z`);
    await expect.poll(() => painted(FREE + 1, 7)).toBe('none');
  });
});

describe('a new workbook', () => {
  it('G17 Y30 has the keys in its grid: what is typed at once stands in its first cell', async () => {
    await command(atHand.page, 'Workbooks');
    await atHand.page.getByRole('button', { name: 'New blank workbook' }).click();
    await atHand.page.getByLabel('Workbook name').press('Enter');
    await atHand.page.getByText('My workbook').first().waitFor();
    await atHand.page.locator('.ag-cell:focus').waitFor();
    await atHand.page.keyboard.type('first words');
    await press('Enter');
    await expect
      .poll(() => words(atHand.page.locator('.ag-row[row-id="0"] [aria-colindex="2"]')))
      .toBe('first words');
  });
});

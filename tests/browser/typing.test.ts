import { describe, expect, it } from 'vitest';
import { HIGH } from './support/app.ts';
import { words } from './support/maker.ts';
import { withMaker } from './support/with-maker.ts';

/** What a spreadsheet person's fingers expect of the keys, on the dining table's brief. */

const atHand = withMaker({ shared: true, viewport: HIGH });

const press = (...keys: readonly string[]): Promise<void> =>
  keys.reduce(
    (before, key) => before.then(() => atHand.page.keyboard.press(key)),
    Promise.resolve(),
  );

/** The address in the go-to box, or the name that stands there. */
const here = (): Promise<string> =>
  atHand.page.getByLabel('Name or address of the cell; type one to go there').inputValue();

const entry = () => atHand.page.locator('.line-entry');

/** Goes to a cell by typing its address, as the go-to box allows. */
async function goTo(address: string): Promise<void> {
  const box = atHand.page.getByLabel('Name or address of the cell; type one to go there');
  await box.fill(address);
  await box.press('Enter');
  await atHand.page.locator('.ag-cell:focus').waitFor();
}

describe('many fast edits', () => {
  it('G17 G18 each land in the cell that was clicked, and leave the app at rest', async () => {
    const places = [
      [10, 5],
      [11, 5],
      [10, 6],
      [12, 5],
    ] as const;
    const last = new Map<string, string>();
    await atHand.page.setViewportSize({ width: 2200, height: 1200 });
    for (let turn = 0; turn < 80; turn += 1) {
      const [row, column] = places[turn % places.length] ?? [10, 5];
      await atHand.maker.cellAt({ sheet: 'brief', row, column }).click();
      await atHand.page.keyboard.type(`n${turn}`);
      await press('Enter');
      last.set(`${row} ${column}`, `n${turn}`);
    }
    for (const [row, column] of places) {
      const shown = atHand.maker.cellAt({ sheet: 'brief', row, column });
      await expect.poll(() => words(shown)).toContain(last.get(`${row} ${column}`) ?? '');
    }
    const settled = await here();
    await atHand.page.waitForTimeout(300);
    expect(await here()).toBe(settled);
  });

  it('G06 land one below the other when only Enter is pressed between them', async () => {
    await goTo('G31');
    for (let line = 0; line < 12; line += 1) {
      await atHand.page.keyboard.type(`${line + 100}`);
      await press('Enter');
    }
    for (let line = 0; line < 12; line += 1) {
      const shown = atHand.maker.cellAt({ sheet: 'brief', row: 30 + line, column: 6 });
      await expect.poll(() => words(shown)).toBe(`${line + 100}`);
    }
  });
});

describe('the keys', () => {
  it('G01 G02 move by arrows, Home and End, and stop at the edge', async () => {
    await goTo('B30');
    await press('ArrowRight', 'ArrowDown');
    expect(await here()).toBe('C31');
    await press('ArrowLeft', 'ArrowLeft', 'ArrowLeft', 'ArrowLeft');
    expect(await here()).toBe('A31');
    await press('ArrowRight', 'Home');
    expect(await here()).toBe('A31');
    await press('Control+Home');
    expect(await here()).toBe('A1');
    await press('ArrowUp');
    expect(await here()).toBe('A1');
  });

  it('G06 Tab runs to the right and Enter returns to where the run began, a line down', async () => {
    await goTo('B31');
    await atHand.page.keyboard.type('1');
    await press('Tab');
    await atHand.page.keyboard.type('2');
    await press('Tab');
    await atHand.page.keyboard.type('3');
    await press('Enter');
    expect(await here()).toBe('B32');
    await press('Shift+Tab');
    expect(await here()).toBe('A32');
  });

  it('G06 Enter ends a line that Tabs filled in, in a cell that was left empty too', async () => {
    await goTo('B34');
    await atHand.page.keyboard.type('1');
    await press('Tab', 'Tab', 'Enter');
    expect(await here()).toBe('B35');
    await press('Tab', 'Enter');
    expect(await atHand.maker.editorText()).toBe('');
    await press('Escape');
    expect(await here()).toBe('C35');
  });

  it('G17 typing replaces, F2 goes on from what stands there, Esc takes nothing over', async () => {
    await goTo('G31');
    await atHand.page.keyboard.type('12');
    await press('Enter', 'ArrowUp', 'F2');
    expect(await atHand.maker.editorText()).toBe('12');
    await atHand.page.keyboard.type('5');
    await press('ArrowLeft', 'Backspace', 'Enter', 'ArrowUp');
    expect(await entry().inputValue()).toBe('15');
    await atHand.page.keyboard.type('999');
    await press('Escape');
    expect(await here()).toBe('G31');
    expect(await entry().inputValue()).toBe('15');
    await press('Delete');
    expect(await entry().inputValue()).toBe('');
    await press('Control+z');
    expect(await entry().inputValue()).toBe('15');
  });

  it('G19 an arrow takes over what was begun by typing, and moves on', async () => {
    await goTo('G31');
    await atHand.page.keyboard.type('7');
    await press('ArrowRight');
    expect(await here()).toBe('H31');
    expect(await words(atHand.maker.cellAt({ sheet: 'brief', row: 30, column: 6 }))).toBe('7');
  });

  it('G19 clicking elsewhere takes over what was typed', async () => {
    await goTo('G31');
    await atHand.page.keyboard.type('7');
    await atHand.maker.cellAt({ sheet: 'brief', row: 33, column: 5 }).click();
    expect(await here()).toBe('F34');
    expect(await words(atHand.maker.cellAt({ sheet: 'brief', row: 30, column: 6 }))).toBe('7');
  });

  it('G17 a double click opens the cell on what stands there', async () => {
    await goTo('G31');
    await atHand.page.keyboard.type('3/4');
    await press('Enter');
    await atHand.maker.cellAt({ sheet: 'brief', row: 30, column: 6 }).dblclick();
    expect(await atHand.maker.editorText()).toBe('3/4');
    await press('Escape');
  });
});

describe('the line above the grid', () => {
  it('G25 shows what the cell writes while it is written, and the other way round', async () => {
    await goTo('G31');
    await atHand.page.keyboard.type('=2*3');
    expect(await entry().inputValue()).toBe('=2*3');
    await press('Enter');
    expect(await words(atHand.maker.cellAt({ sheet: 'brief', row: 30, column: 6 }))).toBe('6');
    await press('ArrowUp');
    await entry().fill('=2*4');
    expect(await words(atHand.maker.cellAt({ sheet: 'brief', row: 30, column: 6 }))).toBe('=2*4');
    await entry().press('Enter');
    expect(await words(atHand.maker.cellAt({ sheet: 'brief', row: 30, column: 6 }))).toBe('8');
    expect(await here()).toBe('G32');
  });

  it('G10 goes to a named cell on another sheet, and says when there is none', async () => {
    await goTo('apron_long');
    expect(await here()).toBe('apron_long');
    const box = atHand.page.getByLabel('Name or address of the cell; type one to go there');
    await box.fill('no_such_cell');
    await box.press('Enter');
    expect(await words(atHand.page.getByRole('alert'))).toContain(
      'There is no cell called no_such_cell.',
    );
    await box.press('Escape');
    expect(await here()).toBe('apron_long');
  });

  it('offers to restore the formula under an override, and marks the cell until then', async () => {
    const cell = await atHand.maker.go('apron_long');
    const before = await words(cell);
    await atHand.page.keyboard.type('50');
    await press('Enter');
    await atHand.maker.go('apron_long');
    const line = atHand.page.getByRole('region', { name: 'Current cell' });
    await expect.poll(() => words(line.locator('.override-line'))).toContain('Its formula: =');
    await line.getByRole('button', { name: /^Restore the formula of/ }).click();
    await expect.poll(() => words(cell)).toContain(before);
    expect(await line.locator('.override-line').count()).toBe(0);
  });
});

describe('an edit', () => {
  it('Y37 strokes what just changed until the next edit, and says what it was where the eye or the focus is', async () => {
    await atHand.maker.toSheet(atHand.maker.place('top_length').sheet);
    const cell = atHand.maker.cellAt(atHand.maker.place('top_length'));
    const before = await words(cell);
    await cell.click();
    await atHand.page.keyboard.type('96');
    await press('Enter');
    expect(await words(cell)).toBe('96');
    const changed = atHand.page.locator('.ag-cell.is-changed');
    await expect.poll(() => changed.count()).toBeGreaterThan(3);
    // The old value is told on hover, and of the current cell; it lies over no number.
    const titles = await changed
      .locator('.cell-words')
      .evaluateAll((all) => all.map((one) => one.getAttribute('title') ?? ''));
    expect(titles.filter((title) => /was \S/.test(title))).toHaveLength(titles.length);
    const drawn = await changed
      .locator('.cell-words')
      .evaluateAll((all) => all.map((one) => getComputedStyle(one, '::after').content));
    expect(new Set(drawn)).toEqual(new Set(['none']));
    await cell.click();
    expect(await words(atHand.page.locator('.exact'))).toContain(`was ${before}`);
    await atHand.maker.type('top_width', '40');
    await expect
      .poll(() => cell.evaluate((one) => one.classList.contains('is-changed')))
      .toBe(false);
  });
});

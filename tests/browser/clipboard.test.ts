import { describe, expect, it } from 'vitest';
import { HIGH } from './support/app.ts';
import { handsOf } from './support/hands.ts';
import { words } from './support/maker.ts';
import { withMaker } from './support/with-maker.ts';

/** Copying, moving, pasting and filling, within the app and from and to other programs. */

const atHand = withMaker({ shared: true, viewport: HIGH });
const { at, shows, press, type, entry } = handsOf(atHand);

const MOD = 'ControlOrMeta';

/** Rows below what the first sheet uses: nothing there depends on anything. */
const FREE = 33;

async function select(from: [number, number], to: [number, number]): Promise<void> {
  await at(...from).click();
  if (from.join() !== to.join()) await at(...to).click({ modifiers: ['Shift'] });
}

/** Pastes as another program would have left it on the clipboard. */
async function pasteFrom(data: Record<string, string>): Promise<void> {
  await atHand.page.evaluate((parts) => {
    const clipboard = new DataTransfer();
    for (const [kind, text] of Object.entries(parts)) clipboard.setData(kind, text);
    document.activeElement?.dispatchEvent(
      new ClipboardEvent('paste', { clipboardData: clipboard, bubbles: true, cancelable: true }),
    );
  }, data);
}

/** What a copy hands to other programs. */
const copied = () =>
  atHand.page.evaluate(() => {
    const clipboard = new DataTransfer();
    document.activeElement?.dispatchEvent(
      new ClipboardEvent('copy', { clipboardData: clipboard, bubbles: true, cancelable: true }),
    );
    return { text: clipboard.getData('text/plain'), html: clipboard.getData('text/html') };
  });

describe('copy and paste', () => {
  it('G41 take relative references along and leave fixed ones', async () => {
    await type(FREE, 0, '5');
    await type(FREE, 1, `=$A$${FREE + 1}+A${FREE + 1}`);
    await at(FREE, 1).click();
    await press(`${MOD}+c`);
    await at(FREE + 2, 2).click();
    await press(`${MOD}+v`);
    expect(await entry(FREE + 2, 2)).toBe(`=$A$${FREE + 1}+B${FREE + 3}`);
    await press(`${MOD}+z`);
    await expect.poll(() => shows(FREE + 2, 2)).toBe('');
  });

  it('G41 move what was cut, and whoever used it follows', async () => {
    await type(FREE, 0, '21');
    await type(FREE, 1, `=A${FREE + 1}*2`);
    await at(FREE, 0).click();
    await press(`${MOD}+x`);
    await expect.poll(() => at(FREE, 0).getAttribute('class')).toContain('is-leaving');
    await at(FREE + 3, 0).click();
    await press(`${MOD}+v`);
    expect(await entry(FREE, 1)).toBe(`=A${FREE + 4}*2`);
    expect(await shows(FREE, 1)).toContain('42');
    expect(await shows(FREE, 0)).toBe('');
    await press(`${MOD}+z`);
    await expect.poll(() => shows(FREE, 0)).toContain('21');
    expect(await entry(FREE, 1)).toBe(`=A${FREE + 1}*2`);
  });

  it('G46 G47 hand on text and a table that come back the same', async () => {
    await type(FREE, 0, 'a "wide" board');
    await type(FREE, 1, '1 1/2');
    await select([FREE, 0], [FREE, 1]);
    const { text, html } = await copied();
    expect(html).toContain('<td>1 1/2</td>');
    await at(FREE + 2, 0).click();
    await pasteFrom({ 'text/plain': text });
    expect(await shows(FREE + 2, 0)).toContain('a "wide"');
    await at(FREE + 4, 0).click();
    await pasteFrom({ 'text/html': html, 'text/plain': 'not this' });
    expect(await shows(FREE + 4, 1)).toBe(await shows(FREE, 1));
  });

  it('G47 read quoted lines as one cell and run nothing', async () => {
    await at(FREE, 0).click();
    await pasteFrom({ 'text/plain': '"two\nlines"\tb\r\nc\td\r\n' });
    expect(await entry(FREE, 0)).toMatch(/two.*lines/s);
    expect(await shows(FREE + 1, 1)).toBe('d');
    expect(await shows(FREE + 2, 0)).toBe('');
    await at(FREE + 3, 0).click();
    await pasteFrom({
      'text/html':
        '<table><tr><td>x<img src=x onerror="window.hurt=1"><script>window.hurt=1</script></td></tr></table>',
      'text/plain': 'x',
    });
    expect(await shows(FREE + 3, 0)).toBe('x');
    expect(await atHand.page.evaluate(() => Reflect.get(window, 'hurt'))).toBeUndefined();
    // The page's policy says aloud that it would not have run it either.
    expect(atHand.complaints.filter((one) => !one.includes('Content Security Policy'))).toEqual([]);
    atHand.complaints.length = 0;
  });

  it('G48 read texts as if they were typed, formulas too', async () => {
    await atHand.maker.go('top_length');
    await pasteFrom({ 'text/plain': '8\' 0"' });
    await expect.poll(() => atHand.maker.shows('top_length')).toContain('96');
    await at(FREE, 0).click();
    await pasteFrom({ 'text/plain': '=1+1\t12mm' });
    await expect.poll(() => shows(FREE, 0)).toBe('2');
  });

  it('G21 ask once what a paste means that can be read in two ways', async () => {
    await at(FREE, 0).click();
    await pasteFrom({ 'text/plain': '1.234\t2.500\n1.000\tleg' });
    const offer = atHand.page.locator('.offer');
    await expect.poll(() => words(offer)).toContain('1.234 can be read in two ways');
    expect(await shows(FREE, 0)).toBe('');
    await atHand.page.getByRole('button', { name: 'The comma' }).click();
    await expect.poll(() => shows(FREE, 0)).toContain('1234');
    expect(await shows(FREE, 1)).toContain('2500');
    await press(`${MOD}+z`);
    await expect.poll(() => shows(FREE, 0)).toBe('');
    // What only one reading fits is not asked about on a device that writes so.
    await pasteFrom({ 'text/plain': '1,234.5\n1,234' });
    await expect.poll(() => shows(FREE + 1, 0)).toContain('1234');
    expect(await offer.count()).toBe(0);
    await press(`${MOD}+z`);
    await pasteFrom({ 'text/plain': '1.234,5' });
    await atHand.page.getByRole('button', { name: 'Cancel paste' }).click();
    expect(await shows(FREE, 0)).toBe('');
  });

  it('G21 numbers may be typed with a comma before decimals; what is kept is the same', async () => {
    await atHand.page.getByRole('button', { name: 'Menu', exact: true }).click();
    await atHand.page.getByLabel('Numbers typed as').selectOption('comma');
    await atHand.page.keyboard.press('Escape');
    await type(FREE, 0, '1.234,5');
    expect(await entry(FREE, 0)).toBe('1234.5');
    await type(FREE, 1, '12,7 mm');
    expect(await entry(FREE, 1)).toBe('12.7 mm');
    await type(FREE, 2, `=ROUND(A${FREE + 1},0)`);
    expect(await entry(FREE, 2)).toBe(`=ROUND(A${FREE + 1},0)`);
    await atHand.maker.untilSaved();
    await atHand.page.reload();
    await atHand.maker.ready();
    await atHand.page.getByRole('button', { name: 'Menu', exact: true }).click();
    await expect.poll(() => atHand.page.getByLabel('Numbers typed as').inputValue()).toBe('comma');
    await atHand.page.keyboard.press('Escape');
    await at(FREE + 1, 0).click();
    await pasteFrom({ 'text/plain': '0,25' });
    await expect.poll(() => entry(FREE + 1, 0)).toBe('0.25');
    await atHand.page.getByRole('button', { name: 'Menu', exact: true }).click();
    await atHand.page.getByLabel('Numbers typed as').selectOption('point');
    await atHand.page.keyboard.press('Escape');
  });

  it('G61 say how many pasted cells are not allowed, and are undone in one press', async () => {
    await atHand.maker.go('top_length');
    await pasteFrom({ 'text/plain': '90\n9000\noak' });
    const offer = atHand.page.locator('.offer');
    await expect
      .poll(() => words(offer))
      .toMatch(/^2 pasted cells cannot be read or are not allowed/);
    await atHand.page.getByRole('button', { name: 'Undo the paste' }).click();
    await expect.poll(() => atHand.maker.shows('top_length')).toContain('84');
    expect(await offer.count()).toBe(0);
  });

  it('G49 fit: one value fills the selection, a block grows past the edge, all is one step', async () => {
    await select([FREE, 0], [FREE + 2, 2]);
    await pasteFrom({ 'text/plain': '7' });
    for (const row of [FREE, FREE + 2])
      for (const column of [0, 2]) expect(await shows(row, column)).toContain('7');
    await press(`${MOD}+z`);
    await expect.poll(() => shows(FREE + 2, 2)).toBe('');
    const rows = () =>
      atHand.page
        .locator('.sheet-grid [aria-rowcount]')
        .evaluate((grid) => Number(grid.getAttribute('aria-rowcount')));
    const before = await rows();
    await at(FREE, 0).click();
    const lines = Array.from({ length: 60 }, (_, i) => String(i + 1)).join('\n');
    await pasteFrom({ 'text/plain': lines });
    await expect
      .poll(() => words(atHand.page.locator('.selection-line')))
      .toMatch(/60 rows.* Numbers 60 Sum 1,?830 /);
    expect(await rows()).toBeGreaterThan(before);
    await press(`${MOD}+z`);
    await expect.poll(rows).toBe(before);
    expect(await shows(FREE, 0)).toBe('');
  });

  it('G49 are refused whole where a sheet cannot hold them', async () => {
    await type(FREE, 0, 'stays');
    await at(FREE, 0).click();
    await pasteFrom({ 'text/plain': Array.from({ length: 10_001 }, () => 'x').join('\n') });
    await expect.poll(() => words(atHand.page.getByRole('alert'))).toContain('a sheet holds');
    expect(await shows(FREE, 0)).toBe('stays');
  });

  it('G51 a big one shows how far it is, is one step, and is stopped with nothing changed', async () => {
    const lines = (rows: number) =>
      Array.from({ length: rows }, (_, i) => `${i}\t${i + 0.5}\tleg ${i}\t${i * 2}`).join('\n');
    const rowCount = () =>
      atHand.page
        .locator('.sheet-grid [aria-rowcount]')
        .evaluate((grid) => Number(grid.getAttribute('aria-rowcount')));
    const before = await rowCount();
    await at(FREE, 0).click();
    await pasteFrom({ 'text/plain': lines(9000) });
    await atHand.page.getByText('Pasting 36,000 cells').waitFor();
    await press('Escape');
    await expect.poll(() => words(atHand.page.getByRole('alert'))).toContain('Stopped.');
    await expect.poll(rowCount).toBe(before);
    expect(await shows(FREE, 0)).toBe('');
    await pasteFrom({ 'text/plain': lines(2500) });
    await expect
      .poll(() => words(atHand.page.locator('.selection-line')), { timeout: 20_000 })
      .toContain('by 2500 rows');
    expect(await shows(FREE + 1, 2)).toBe('leg 1');
    await press(`${MOD}+z`);
    await expect.poll(rowCount).toBe(before);
    expect(await shows(FREE, 0)).toBe('');
  });

  it('G50 paste values alone with Shift', async () => {
    await type(FREE, 0, '5');
    await type(FREE, 1, `=A${FREE + 1}*3`);
    await at(FREE, 1).click();
    await press(`${MOD}+c`);
    await at(FREE + 1, 1).click();
    await press(`${MOD}+Shift+v`);
    await expect.poll(() => shows(FREE + 1, 1)).toContain('15');
    expect(await entry(FREE + 1, 1)).toBe('15');
  });

  it('G50 paste looks alone, and rows turned into columns, from the menu', async () => {
    await type(FREE, 0, '1 1/2 in');
    await type(FREE + 1, 0, '4');
    await type(FREE + 2, 0, `=A${FREE + 2}*2`);
    const choose = async (row: number, column: number, item: string): Promise<void> => {
      await at(row, column).click({ button: 'right' });
      await atHand.page.getByRole('menuitem', { name: item }).click();
    };
    await at(FREE, 0).click();
    await choose(FREE, 0, 'Copy');
    await expect.poll(() => at(FREE, 0).getAttribute('class')).toContain('is-leaving');
    await choose(FREE + 1, 0, 'Paste format only');
    expect(await entry(FREE + 1, 0)).toBe('4');
    expect(await words(atHand.page.locator('.cell-kind'))).toBe('length, in');
    await select([FREE, 0], [FREE + 2, 0]);
    await press(`${MOD}+c`);
    await choose(FREE, 1, 'Paste rows as columns');
    await expect.poll(() => shows(FREE, 2)).toContain('4');
    expect(await shows(FREE, 1)).toMatch(/1 ?1\/2/);
    // It read the cell above; now it reads the one at its left.
    expect(await entry(FREE, 3)).toBe(`=C${FREE + 1}*2`);
  });

  it('say so when several areas are selected', async () => {
    await at(5, 0).click();
    await at(7, 0).click({ modifiers: [MOD] });
    await press(`${MOD}+c`);
    await expect.poll(() => words(atHand.page.getByRole('alert'))).toContain('Several areas');
  });
});

describe('filling', () => {
  const drag = async (to: [number, number]): Promise<void> => {
    await atHand.page.locator('.fill-handle').hover();
    await atHand.page.mouse.down();
    await at(...to).hover();
    await atHand.page.mouse.up();
  };

  it('G42 by the handle goes on with numbers, names and formulas, in one step', async () => {
    await type(FREE, 0, '1');
    await type(FREE + 1, 0, '2');
    await type(FREE, 1, 'shelf 1');
    await type(FREE + 1, 1, 'shelf 2');
    await type(FREE, 2, `=A${FREE + 1}*2`);
    await type(FREE + 1, 2, `=A${FREE + 2}*2`);
    await select([FREE, 0], [FREE + 1, 2]);
    await drag([FREE + 4, 1]);
    await expect.poll(() => shows(FREE + 4, 0)).toContain('5');
    expect(await shows(FREE + 4, 1)).toContain('shelf 5');
    expect(await shows(FREE + 4, 2)).toContain('10');
    expect(await entry(FREE + 3, 2)).toBe(`=A${FREE + 4}*2`);
    await press(`${MOD}+z`);
    await expect.poll(() => shows(FREE + 2, 0)).toBe('');
  });

  it('G42 by key copies the first row down and the first column to the right', async () => {
    await type(FREE, 0, '4');
    await type(FREE, 1, `=A${FREE + 1}+1`);
    await select([FREE, 0], [FREE + 2, 1]);
    await press(`${MOD}+d`);
    await expect.poll(() => shows(FREE + 2, 0)).toContain('4');
    expect(await entry(FREE + 2, 1)).toBe(`=A${FREE + 3}+1`);
    await at(FREE + 3, 1).click();
    await press(`${MOD}+d`);
    expect(await entry(FREE + 3, 1)).toBe(`=A${FREE + 4}+1`);
    await select([FREE, 1], [FREE, 2]);
    await press(`${MOD}+r`);
    expect(await entry(FREE, 2)).toBe(`=B${FREE + 1}+1`);
  });
});

import { describe, expect, it } from 'vitest';
import { HIGH } from './support/app.ts';
import { handsOf } from './support/hands.ts';
import { words } from './support/maker.ts';
import { withMaker } from './support/with-maker.ts';

/** Writing formulas: pointing at cells, completions, help for arguments, forms of references. */

const atHand = withMaker({ shared: true, viewport: HIGH });
const { at, press } = handsOf(atHand);

const FREE = 33;
const editor = () => atHand.page.locator('.cell-entry').inputValue();
const line = () => atHand.page.locator('.line-entry').inputValue();
const options = () => atHand.page.locator('[role="option"]').allInnerTexts();

async function begin(text: string): Promise<void> {
  await at(FREE, 1).click();
  await atHand.page.keyboard.type(text);
}

describe('pointing at cells', () => {
  it('G27 writes their reference, and a drag a range, with the editor open', async () => {
    await begin('=A1+');
    await at(FREE + 2, 2).click();
    expect(await editor()).toBe(`=A1+C${FREE + 3}`);
    await at(FREE + 1, 0).hover();
    await atHand.page.mouse.down();
    await at(FREE + 3, 1).hover();
    await atHand.page.mouse.up();
    expect(await editor()).toBe(`=A1+A${FREE + 2}:B${FREE + 4}`);
    expect(await line()).toBe(await editor());
    await press('Escape');
    await begin('=');
    await at(20, 1).click();
    expect(await editor()).toBe('=least_knee_room');
    await atHand.page.keyboard.type('*2');
    await press('Enter');
    await expect.poll(() => words(at(FREE, 1))).toContain('48');
  });

  it('G27 writes it with the arrows too, and with Shift a range', async () => {
    await begin('=SUM(');
    await press('ArrowUp');
    expect(await editor()).toBe(`=SUM(B${FREE})`);
    await press('Shift+ArrowUp');
    await press('Shift+ArrowLeft');
    expect(await editor()).toBe(`=SUM(A${FREE - 1}:B${FREE})`);
    await atHand.page.keyboard.type(')');
    await press('Enter');
    await at(FREE, 1).click();
    expect(await line()).toBe(`=SUM(A${FREE - 1}:B${FREE})`);
  });

  it('G27 reaches other sheets, and Enter comes home', async () => {
    await begin('=2*');
    await atHand.page
      .getByRole('navigation', { name: 'Sheets' })
      .getByRole('button', { name: /^Cost/ })
      .click();
    await at(1, 0).click();
    expect(await line()).toBe('=2*Cost!A2');
    await at(1, 1).click();
    expect(await line()).toBe('=2*wood_price');
    await press('Enter');
    await expect
      .poll(() => words(atHand.page.locator('nav [aria-current="page"]')))
      .toContain('Brief');
    await expect.poll(() => words(at(FREE, 1))).toContain('25');
  });

  it('G28 outlines what a formula reads as soon as it is opened', async () => {
    await begin(`=A${FREE + 1}+SUM(A${FREE - 2}:A${FREE})`);
    await press('Enter');
    await at(FREE, 1).click();
    await press('F2');
    await expect.poll(() => atHand.page.locator('.ag-cell[data-read="1"]').count()).toBe(1);
    expect(await atHand.page.locator('.ag-cell[data-read="2"]').count()).toBe(3);
    expect(await words(atHand.page.locator('.entry-reads'))).toMatch(/1 ?A34.*2 ?A31:A33/);
    // Its letters bear the hues of the outlines, and the brackets at the caret are a pair.
    const letters = atHand.page.locator('.cell-entry-holder .entry-colours');
    expect(await letters.textContent()).toBe(await editor());
    const hued = (hue: number) => letters.locator(`[data-hue="${hue}"]`).textContent();
    expect(await hued(0)).toBe(`A${FREE + 1}`);
    expect(await hued(1)).toBe(`A${FREE - 2}:A${FREE}`);
    expect(await letters.locator('[data-bracket="pair"]').allInnerTexts()).toEqual(['(', ')']);
    await press('Escape');
    await expect.poll(() => atHand.page.locator('.ag-cell[data-read]').count()).toBe(0);
  });

  it('G29 F4 turns a reference through its four forms', async () => {
    await begin('=A1+B3');
    for (const form of ['$B$3', 'B$3', '$B3', 'B3']) {
      await press('F4');
      expect(await editor()).toBe(`=A1+${form}`);
    }
    await press('Shift+Home');
    await press('F4');
    expect(await editor()).toBe('=$A$1+$B$3');
    await press('Escape');
  });
});

describe('completion', () => {
  it('G30 offers functions and named cells, told apart in words', async () => {
    await begin('=su');
    await expect.poll(options).not.toEqual([]);
    expect((await options()).some((one) => /^SUM\s+function/.test(one))).toBe(true);
    await press('Escape');
    await expect.poll(options).toEqual([]);
    expect(await editor()).toBe('=su');
    await atHand.page.keyboard.type('m');
    await expect.poll(options).not.toEqual([]);
    await press('Tab');
    await expect.poll(editor).toBe('=SUM()');
    await atHand.page.keyboard.type('top_l');
    await expect.poll(async () => (await options())[0]).toMatch(/^top_length\s+named cell\s+84 in/);
    await press('Enter');
    await expect.poll(editor).toBe('=SUM(top_length)');
    await atHand.page.keyboard.type(')');
    await press('Enter');
    await expect.poll(() => words(at(FREE, 1))).toContain('84');
  });

  it.each([
    ['=XLOO', ['XLOOKUP']],
    ['=COUNT', ['COUNT', 'COUNTA', 'COUNTBLANK', 'COUNTIF', 'COUNTIFS', 'COUNTUNIQUE']],
    // The name itself first, though VAR.S comes before it on the page.
    ['=VAR', ['VAR', 'VAR.S', 'VAR.P', 'VARA', 'VARPA', 'VARS', 'VARP']],
    // Ours before the standard ones.
    ['=BO', ['BOARDFEET']],
  ])('G30 offers for %s in this order: %s', async (text, names) => {
    await begin(text);
    const functions = async () =>
      (await options())
        .filter((one) => /^\S+\s+function/.test(one))
        .map((one) => one.split(/\s/)[0]);
    await expect.poll(functions).toEqual(expect.arrayContaining(names));
    expect((await functions()).slice(0, names.length)).toEqual(names);
  });

  it('G30 is chosen with the arrows, and read out through the field', async () => {
    await begin('=apron_');
    await expect.poll(async () => (await options()).length).toBeGreaterThan(2);
    const field = atHand.page.locator('.cell-entry');
    expect(await field.getAttribute('aria-expanded')).toBe('true');
    expect(await field.getAttribute('aria-activedescendant')).toBe('entry-option-0');
    await press('ArrowDown');
    await expect.poll(() => field.getAttribute('aria-activedescendant')).toBe('entry-option-1');
    const chosen = (await options())[1]?.split(/\s/)[0];
    await press('Enter');
    await expect.poll(editor).toBe(`=${chosen}`);
  });

  it('G31 tells which argument the caret is in, for ours and the standard ones', async () => {
    await begin('=EMC(70,');
    const call = atHand.page.locator('.entry-call');
    await expect.poll(() => words(call.locator('strong'))).toBe('humidity');
    expect(await words(call)).toContain('relative humidity of the air');
    await press('ArrowLeft');
    await press('Escape');
    await begin('=MOVEMENT(40,');
    await expect.poll(() => words(call)).toContain('[cut]');
    await press('Escape');
    await begin('=SUMIFS(A1:A9,');
    await expect.poll(() => words(call.locator('strong'))).toBe('range');
    expect(await words(call)).toContain('where to look (a range)');
  });

  it.each([
    ['=IF(ROUND(EMC(70,', 'EMC', 'humidity'],
    ['=IF(ROUND(EMC(70,40),', 'ROUND', '[places]'],
    ['=IF(ROUND(EMC(70,40),1)>5,', 'IF', 'then'],
    ['=IF("a, (b",', 'IF', 'then'],
    ['=INDEX({1,2;3,4},', 'INDEX', 'row'],
    ['=SUMIFS(A1:A9,B1:B9,">5",', 'SUMIFS', 'range'],
    ['=SUMIFS(A1:A9,B1:B9,">5",C1:C9,', 'SUMIFS', 'condition'],
    ['=IFS(1>2,3,', 'IFS', 'condition'],
    ['=COUNTIFS(A1:A9,', 'COUNTIFS', 'condition'],
    ['=XLOOKUP(1,A1:A9,', 'XLOOKUP', 'answers'],
    ['=SWITCH(A1,1,2,', 'SWITCH', 'case'],
    ['=NORMDIST(1,', 'NORMDIST', 'mean'],
    ['=SUM(1,2,3,', 'SUM', 'values'],
    ['=MAX(Brief!B6,', 'MAX', 'values'],
  ])('G31 in %s it is %s, and %s', async (text, name, argument) => {
    await begin(text);
    const call = atHand.page.locator('.entry-call');
    await expect.poll(() => words(call)).toMatch(new RegExp(`^${name}\\(`));
    await expect.poll(() => words(call.locator('strong'))).toBe(argument);
  });

  it('G31 says where a function takes nothing, and where it takes no more', async () => {
    const call = atHand.page.locator('.entry-call');
    await begin('=PI(');
    await expect.poll(() => words(call)).toBe('PI() nothing goes in the parentheses');
    await press('Escape');
    await begin('=ROUND(1,2,');
    await expect.poll(() => words(call)).toContain('no more arguments');
  });

  it('G30 puts a completion in the place of the whole word, its end too', async () => {
    await begin('=top_wxth+1');
    await atHand.page.getByLabel('Entry or formula').focus();
    await press('End');
    for (let i = 0; i < 'xth+1'.length; i += 1) await press('ArrowLeft');
    await expect.poll(options).not.toEqual([]);
    await press('Tab');
    await expect.poll(line).toMatch(/^=top_w[a-z]+\+1$/);
    expect(await line()).not.toContain('xth');
  });

  it('G24 Ctrl and Enter put the entry in every selected cell', async () => {
    await at(FREE, 1).click();
    await at(FREE + 2, 1).click({ modifiers: ['Shift'] });
    await atHand.page.keyboard.type(`=A${FREE + 1}+1`);
    await press('ControlOrMeta+Enter');
    await at(FREE + 2, 1).click();
    expect(await line()).toBe(`=A${FREE + 3}+1`);
    await press('ControlOrMeta+z');
    await expect.poll(() => words(at(FREE, 1))).toBe('');
  });
});

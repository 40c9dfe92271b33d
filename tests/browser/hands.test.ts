import { beforeEach, describe, expect, it } from 'vitest';
import { startApp } from './support/app.ts';
import { handsOf } from './support/hands.ts';
import { Maker, shippedTable, standing, words } from './support/maker.ts';
import { withMaker } from './support/with-maker.ts';

/** More of what hands do, with real keys and the pointer: what is typed and pasted, lists, checks. */

const atHand = withMaker({ shared: true });
const { at, shows, press, type } = handsOf(atHand);
const FREE = 40;

// So tall that the free rows are in sight.
beforeEach(() => atHand.page.setViewportSize({ width: 1440, height: 1900 }));

const trouble = () => words(atHand.page.locator('.fold-cell .trouble'));

/** Copies lines in another page of the browser, as out of a letter or a list from elsewhere. */
async function copyElsewhere(...lines: readonly string[]): Promise<void> {
  const page = await atHand.page.context().newPage();
  await page.setContent('<textarea></textarea>');
  await page.locator('textarea').fill(lines.join('\n'));
  await page.keyboard.press('ControlOrMeta+a');
  await page.keyboard.press('ControlOrMeta+c');
  await page.close();
  await atHand.page.bringToFront();
}

describe('percentages', () => {
  it('Y01 are 15 for 15 %, typed and pasted', async () => {
    await type(FREE, 0, '15%');
    await expect.poll(() => shows(FREE, 0)).toBe('15');
    await copyElsewhere('15%', '$37.50', '14 Mar 2026', '7.5%');
    await at(FREE, 1).click();
    await press('ControlOrMeta+v');
    await expect.poll(() => shows(FREE, 1)).toBe('15');
    expect(await shows(FREE + 1, 1)).toBe('$37.50');
    expect(await shows(FREE + 2, 1)).toBe('2026-03-14');
    expect(await shows(FREE + 3, 1)).toBe('7.5');
    // Typed again into a cell for percentages, with its sign and without.
    await type(FREE + 3, 1, '8');
    await type(FREE + 3, 0, `=B${FREE + 4}+A${FREE + 1}`);
    await expect.poll(() => shows(FREE + 3, 0)).toBe('23');
  });

  it('Y02 are a share where they are typed in a formula, and one that is reckoned with as it is says so', async () => {
    await type(FREE, 0, '15%', '=200*15%', `=200*A${FREE + 1}/100`);
    await expect.poll(() => shows(FREE + 1, 0)).toBe('30');
    expect(await shows(FREE + 2, 0)).toBe('30');
    await type(FREE, 1, '$200', `=B${FREE + 1}*A${FREE + 1}`);
    await at(FREE + 1, 1).click();
    await expect.poll(trouble).toContain(`Write A${FREE + 1}/100.`);
    await type(FREE + 1, 1, `=B${FREE + 1}*A${FREE + 1}/100`);
    await expect.poll(() => shows(FREE + 1, 1)).toBe('$30.00');
    await at(FREE + 1, 1).click();
    await expect.poll(() => atHand.page.locator('.fold-cell .trouble').count()).toBe(0);
  });
});

describe('a date', () => {
  it('Y04 is read in the ways people type it', async () => {
    const ways = [
      '2026-03-14',
      '3/14/2026',
      '3/14/26',
      '14.3.2026',
      '14 Mar 2026',
      '14 March 2026',
      'March 14, 2026',
      'Mar 14 2026',
      '14-Mar-26',
    ];
    await type(FREE, 0, ...ways);
    for (const [i, way] of ways.entries()) {
      await expect.poll(async () => [way, await shows(FREE + i, 0)]).toEqual([way, '2026-03-14']);
    }
    // No day of the calendar is no date, and says so.
    await type(FREE, 1, '30 Feb 2026');
    await at(FREE, 1).click();
    await expect.poll(trouble).toContain('February 2026 has 28 days');
  });
});

describe('a cell with a list', () => {
  it('Y19 looks like one, and no other does', async () => {
    const [brief] = shippedTable().sheets;
    const lists = (brief?.rows ?? []).flatMap(({ cells = {} }, row) =>
      (brief?.columns ?? []).flatMap(({ id }, column) =>
        cells[id]?.allow?.list === undefined ? [] : [`${row} ${column}`],
      ),
    );
    expect(lists.length).toBeGreaterThan(2);
    const arrows = () =>
      atHand.page.locator('.sheet-grid .ag-cell[aria-colindex]').evaluateAll((cells) =>
        cells
          .filter((one) => getComputedStyle(one).backgroundImage.includes('45deg'))
          .map((one) => {
            const column = Number(one.getAttribute('aria-colindex')) - 2;
            return `${one.closest('[row-id]')?.getAttribute('row-id')} ${column}`;
          })
          .sort(),
      );
    await expect.poll(arrows).toEqual([...lists].sort());
    // A press on the arrow opens it; one on its words only goes there.
    const cell = await atHand.maker.go('species');
    expect(await atHand.page.getByRole('listbox').count()).toBe(0);
    const { width = 0, height = 0 } = (await cell.boundingBox()) ?? {};
    await cell.click({ position: { x: width - 10, y: height / 2 } });
    await atHand.page.getByRole('listbox').waitFor();
    await press('Escape');
  });
});

describe('numbers below each other', () => {
  it('Y51 have their points below each other, also where one is longer behind its point now', async () => {
    await type(FREE, 0, '12.25', '7', '3.5', '100');
    const column = 0;
    const rows = [FREE, FREE + 1, FREE + 2, FREE + 3];
    /** Where the digit before the point ends, px; the text of each beside it. */
    const ends = () =>
      Promise.all(
        rows.map((row) =>
          at(row, column)
            .locator('.cell-words')
            .evaluate((one) => {
              const [text] = [...one.childNodes].filter((node) => node instanceof Text);
              const words = text?.textContent ?? '';
              const point = words.includes('.') ? words.indexOf('.') : words.length;
              const range = document.createRange();
              range.setStart(text as Text, point - 1);
              range.setEnd(text as Text, point);
              return Math.round(range.getBoundingClientRect().right);
            }),
        ),
      );
    const apart = async () => {
      const all = await ends();
      return Math.max(...all) - Math.min(...all);
    };
    const before = await ends();
    expect(await apart()).toBeLessThanOrEqual(1);
    await type(FREE + 1, 0, '7.1875');
    await expect.poll(async () => (await ends())[0]).toBeLessThan((before[0] ?? 0) - 10);
    expect(await apart()).toBeLessThanOrEqual(1);
  });
});

describe('completions with a finger', () => {
  it('Y52 are as large as it is, and one tap takes one', async () => {
    const app = await startApp();
    const page = await app.open({ viewport: { width: 1024, height: 768 }, hasTouch: true });
    const maker = new Maker(page);
    await maker.ready();
    await maker.cellAt(maker.place('top_width')).tap();
    await page.keyboard.type('=top_');
    const options = page.getByRole('listbox').getByRole('option');
    await options.first().waitFor();
    const shown = await options.evaluateAll((all) =>
      all.map((one) => one.getBoundingClientRect().height).filter((height) => height > 0),
    );
    expect(shown.length).toBeGreaterThan(2);
    expect(Math.min(...shown)).toBeGreaterThanOrEqual(44);
    await options.filter({ hasText: 'top_length' }).tap();
    await expect.poll(() => page.getByLabel('Entry or formula').inputValue()).toBe('=top_length');
    await app.close();
  });
});

describe('a check that does not hold', () => {
  it('Y48 leads to the number to change, by the pointer and by keys', async () => {
    const { maker, page } = atHand;
    await maker.type('top_length', '110');
    const here = () => page.locator('.go-to input').inputValue();
    const check = maker.check('sag');
    await expect.poll(() => check.getAttribute('data-state')).toBe('care');
    await check.getByRole('button', { name: 'Go to Width of the aprons' }).click();
    await expect.poll(here).toBe('apron_width');
    // What the number gone to is stands over the checks: it comes into sight with it.
    const seen = async (): Promise<boolean> => {
      const one = await page.locator('.fold-cell .cell-name').boundingBox();
      const all = await page.locator('.beside-body').boundingBox();
      return one !== null && all !== null && one.y >= all.y && one.y < all.y + all.height;
    };
    await expect.poll(seen).toBe(true);
    await maker.go('top_length');
    await check.getByRole('button', { name: 'Go to Width of the aprons' }).focus();
    await press('Enter');
    await expect.poll(here).toBe('apron_width');
    await page.keyboard.type('6');
    await press('Enter');
    await expect.poll(() => check.getAttribute('data-state')).toBe('pass');
  });

  it.each([
    [1440, 900],
    [1024, 768],
  ])(
    'is led to from the state of its sheet, folded away or not (%i × %i)',
    async (width, height) => {
      const { maker, page } = atHand;
      await page.setViewportSize({ width, height });
      await maker.type('top_length', '110');
      await expect.poll(() => maker.check('sag').getAttribute('data-state')).toBe('care');
      const fold = page.locator('.fold-checks');
      await fold.evaluate((one) => one.removeAttribute('open'));
      const state = page.locator('.sheet-list li', { hasText: 'Warning' }).locator('.sheet-state');
      await state.first().click();
      const check = fold.locator('li:focus');
      await check.waitFor();
      expect(await check.getAttribute('data-state')).toBe('care');
      await check.getByRole('button', { name: 'Go to People to lift it' }).waitFor();
      await expect.poll(() => page.locator('.go-to input').inputValue()).toBe('people_lifting');
      const box = await check.boundingBox();
      expect(box?.y).toBeGreaterThanOrEqual(0);
      expect(Math.floor((box?.y ?? 0) + (box?.height ?? 0))).toBeLessThanOrEqual(height);
    },
  );

  it.each([
    [1440, 900],
    [1024, 768],
    [768, 1024],
    [390, 844],
  ])(
    'is in sight after one press, however long its cell is explained over it (%i × %i)',
    async (width, height) => {
      const { maker, page } = atHand;
      await maker.type('top_length', '140');
      await maker.type('top_width', '72');
      await maker.type('rough_quarters', '6/4');
      await expect.poll(() => maker.check('planed').getAttribute('data-state')).toBe('stop');
      await page.setViewportSize({ width, height });
      for (const [sheet, id, name] of [
        ['Brief', 'lift', 'people_lifting'],
        ['Top', 'planed', 'rough_quarters'],
        ['Base', 'sag', 'apron_width'],
      ] as const) {
        await page.locator('.sheet-list li', { hasText: sheet }).locator('.sheet-state').click();
        await page.locator(`[data-check="${id}"]:focus`).waitFor();
        await expect.poll(() => page.locator('.go-to input').inputValue()).toBe(name);
        // What explains the cell comes later than the cell: it is the one gone to, and has come to its height.
        await expect.poll(() => words(page.locator('.cell-name'))).toMatch(new RegExp(`^${name} `));
        const check = await standing(maker.check(id));
        const all = await page.locator('.beside-body').boundingBox();
        if (check === null || all === null) throw new Error(`the check ${id} is not there`);
        expect([id, check.y >= all.y - 1]).toEqual([id, true]);
        expect([id, check.y + check.height <= all.y + all.height + 1]).toEqual([id, true]);
      }
    },
  );
});

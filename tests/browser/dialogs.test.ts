import { describe, expect, it } from 'vitest';
import { words } from './support/maker.ts';
import { SCREENS } from './support/screens.ts';
import { withMaker } from './support/with-maker.ts';

/** How dialogs and the line on top are laid out: buttons look like buttons, and nothing jumps sideways. */

const atHand = withMaker({ shared: true });

const HEADED = ['New table', 'Renaming a sheet', 'Deleting a sheet', 'Delete a row', 'New check'];

describe('a dialog', () => {
  it.each(SCREENS.filter(({ name }) => HEADED.includes(name)))(
    '$name has its way out at the end of its head, and a line around each button',
    async (screen) => {
      const dialog = await screen.open(atHand.maker);
      const buttons = await dialog.locator('.button').evaluateAll((all) =>
        all.map((one) => {
          const style = getComputedStyle(one);
          const paper = getComputedStyle(one.closest('dialog') ?? one).backgroundColor;
          return {
            says: one.textContent,
            lined: Number.parseFloat(style.borderTopWidth) >= 1,
            // What is written in the colour of a main action's words needs its ground.
            filled: !one.matches('.button-main') || style.backgroundColor !== paper,
          };
        }),
      );
      expect(buttons.length).toBeGreaterThan(0);
      expect(buttons.filter(({ lined, filled }) => !lined || !filled)).toEqual([]);
      const [gap, off] = await dialog.evaluate((whole) => {
        const out = whole.querySelector('.dialog-head .button')?.getBoundingClientRect();
        const title = whole.querySelector('.dialog-head h2')?.getBoundingClientRect();
        const all = whole.getBoundingClientRect();
        const padding = Number.parseFloat(getComputedStyle(whole).paddingRight);
        const middle = (box: DOMRect | undefined) =>
          box === undefined ? Number.NaN : (box.top + box.bottom) / 2;
        return [
          Math.abs(all.right - padding - (out?.right ?? 0)),
          Math.abs(middle(out) - middle(title)),
        ];
      });
      expect(gap).toBeLessThan(3);
      expect(off).toBeLessThan(2);
    },
  );

  it('says in whole words what deleting does', async () => {
    const screen = SCREENS.find(({ name }) => name === 'Delete a row');
    const dialog = await screen?.open(atHand.maker);
    if (dialog === undefined) throw new Error('there is no such screen');
    expect(await words(dialog)).toContain('may then say "can\'t tell":');
  });
});

describe('the line on top', () => {
  it('keeps undo and what one is doing in their places when the first change is saved', async () => {
    const { page, maker } = atHand;
    const places = () =>
      page
        .locator('.back-and-forth .button, .activity')
        .evaluateAll((all) => all.map((one) => Math.round(one.getBoundingClientRect().left)));
    const whole = () =>
      page.locator('.top-title-words').evaluate((one) => one.scrollWidth <= one.clientWidth);
    const before = await places();
    expect(await whole()).toBe(true);
    await maker.type('top_length', '90');
    await maker.untilSaved();
    expect(await places()).toEqual(before);
    expect(await whole()).toBe(true);
  });
});

describe('what deletes', () => {
  it('stands at the other end from what saves and what leaves', async () => {
    const edit = SCREENS.find(({ name }) => name === 'Edit check');
    const dialog = await edit?.open(atHand.maker);
    const [leave, remove] = await Promise.all(
      ['Cancel', 'Delete check'].map((name) =>
        dialog?.getByRole('button', { name, exact: true }).boundingBox(),
      ),
    );
    const gap = (remove?.x ?? 0) - (leave?.x ?? 0) - (leave?.width ?? 0);
    expect(gap).toBeGreaterThan(64);
  });

  it('says of one row what uses it by its words, twelve of them, and counts the rest', async () => {
    const ask = SCREENS.find(({ name }) => name === 'Delete a row');
    const dialog = await ask?.open(atHand.maker);
    if (dialog === undefined) throw new Error('there is no such screen');
    const said = await words(dialog);
    expect(said).toMatch(/ \d\d cells use row 7 and may then show #REF!/);
    const used = Number(/ (\d+) cells use/.exec(said)?.[1]);
    expect(said).toContain(`and ${used - 12} more`);
    expect(said).toContain('Seats Brief!B19');
    expect(said).toContain('3 checks use row 7');
    expect(await dialog.getByRole('listitem').count()).toBe(16);
  });
});

describe('a check that is begun from a cell', () => {
  it('begins with its name, as a maker would write it', async () => {
    const mark = SCREENS.find(({ name }) => name === 'Mark by a check');
    const dialog = await mark?.open(atHand.maker);
    expect(await dialog?.getByLabel('What must be true').inputValue()).toBe('=top_length<=');
  });
});

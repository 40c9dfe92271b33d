import { describe, expect, it } from 'vitest';
import { words } from './support/maker.ts';
import { withMaker } from './support/with-maker.ts';

/** An entry that cannot be used is kept as typed and explained at the cell; nothing else is lost. */

const atHand = withMaker({ shared: true });

/** What the side table says is wrong with the named cell. */
async function trouble(name: string): Promise<string> {
  await atHand.maker.go(name);
  const place = atHand.page.locator('.fold-cell .trouble');
  await place.waitFor();
  return words(place);
}

describe('a bad entry', () => {
  it.each([
    ['a length that cannot be read', 'top_length', 'about eight feet'],
    ['a negative size', 'top_length', '-84'],
    ['an absurd size', 'top_length', '100000'],
    ['a formula with a typing mistake', 'top_length', '=SUMM(1,2)'],
    ['a circular reference', 'top_length', '=top_length+1'],
    ['an unknown name', 'top_length', '=top_lenght+1'],
  ])(
    'G19 G32 %s gets one sentence, and undo brings the old one back',
    async (_kind, name, typed) => {
      const before = await atHand.maker.shows(name);
      await atHand.maker.type(name, typed);
      const says = await trouble(name);
      expect(says).toMatch(/^\S.*[.?]( Go to .+)?$/);
      expect(says.length).toBeLessThan(300);
      await atHand.page.keyboard.press('F2');
      expect(await atHand.maker.editorText()).toBe(typed);
      await atHand.page.keyboard.press('Escape');
      await atHand.page.keyboard.press('ControlOrMeta+z');
      await expect.poll(() => atHand.maker.shows(name)).toBe(before);
    },
  );

  it('G61 an unknown wood is refused with the nearest, and what was there stays', async () => {
    const before = await atHand.maker.shows('species');
    await atHand.maker.type('species', 'wallnut');
    await atHand.page
      .getByText(/^No wood called "wallnut"; the nearest is .*Take it\?/)
      .first()
      .waitFor();
    await atHand.page.keyboard.press('Escape');
    await atHand.page.keyboard.press('Escape');
    expect(await atHand.maker.shows('species')).toBe(before);
  });

  it.each([
    ['=SUM(A1:A10000*TRANSPOSE(B1:B10000))', /more than 500000 steps/],
    ['=POISSON.DIST(1e9,1e9,TRUE)', /more than 500000 steps/],
  ])('that would take for ever says so at once, and the app answers: %s', async (typed, says) => {
    await atHand.maker.type('top_length', typed);
    expect(await trouble('top_length')).toMatch(says);
    await atHand.maker.type('top_length', '90');
    await expect.poll(() => atHand.maker.shows('top_length')).toContain('90');
  });

  it('that names a sheet which is not there, twice over, leaves the app standing and is kept', async () => {
    const before = await atHand.maker.shows('top_length');
    await atHand.maker.type('top_length', '=Brif!B4');
    expect(await trouble('top_length')).toContain('no sheet called Brif');
    await atHand.maker.type('top_length', '=Brif!B4+1');
    await atHand.maker.type('top_length', '=Brif!B4');
    await atHand.maker.type('top_length', '90');
    await expect.poll(() => atHand.maker.shows('top_length')).toContain('90');
    expect(await atHand.page.locator('.broken').count()).toBe(0);
    for (let i = 0; i < 4; i += 1) await atHand.page.keyboard.press('ControlOrMeta+z');
    await expect.poll(() => atHand.maker.shows('top_length')).toBe(before);
    await atHand.page.keyboard.press('ControlOrMeta+y');
    await expect.poll(() => atHand.maker.shows('top_length')).toContain('#REF!');
    await atHand.maker.untilSaved();
    await atHand.page.reload();
    await atHand.maker.ready();
    await expect.poll(() => atHand.maker.shows('top_length')).toContain('#REF!');
  });

  it('G33 that breaks another cell says where it began and leads there', async () => {
    await atHand.maker.type('top_length', '=1/0');
    expect(await trouble('apron_long')).toMatch(
      /^It is worked out from Length of the top; look there\./,
    );
    await atHand.page
      .locator('.fold-cell .trouble')
      .getByRole('button', { name: /^Go to / })
      .click();
    await expect.poll(() => words(atHand.maker.thisCell)).toContain('top_length');
  });
});

describe('a formula whose numbers do not go together', () => {
  it('computes, is underlined in the grid, and says why at the cell', async () => {
    await atHand.maker.type('top_width', '=top_length/2+hours_boards');
    const cell = await atHand.maker.go('top_width');
    await expect.poll(() => cell.getAttribute('class')).toContain('is-clashing');
    expect(await trouble('top_width')).toBe('This adds a time to a length. Check the references.');
    expect(await atHand.maker.shows('top_width')).not.toContain('#');
    await atHand.maker.type('top_width', '=top_length/2');
    await expect.poll(() => cell.getAttribute('class')).not.toContain('is-clashing');
    // What is said beside the grid follows the cell a moment later.
    await expect.poll(() => atHand.page.locator('.fold-cell .trouble').count()).toBe(0);
  });
});

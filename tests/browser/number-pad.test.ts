import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, complaintsOf, startApp } from './support/app.ts';
import { missed } from './support/hits.ts';
import { command, Maker, words } from './support/maker.ts';

/** Numbers entered with the thumbs: the pad instead of the device's keyboard, at both ways to hold a tablet and on a phone. */

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

interface Opened {
  readonly page: Page;
  readonly maker: Maker;
  readonly pad: Locator;
  readonly complaints: readonly string[];
  readonly press: (...keys: string[]) => Promise<void>;
  readonly tap: (name: string) => Promise<Locator>;
}

async function opened(width: number, height: number): Promise<Opened> {
  const page = await app.open({ viewport: { width, height }, hasTouch: true, isMobile: true });
  const complaints = complaintsOf(page);
  const maker = new Maker(page);
  await maker.ready();
  const pad = page.getByRole('toolbar', { name: 'Number pad' });
  const press = async (...keys: string[]): Promise<void> => {
    for (const key of keys) await pad.getByRole('button', { name: key, exact: true }).tap();
  };
  const tap = async (name: string): Promise<Locator> => {
    const cell = maker.cellAt(maker.place(name));
    await cell.tap();
    return cell;
  };
  return { page, maker, pad, complaints, press, tap };
}

const line = (page: Page) => page.locator('.line-entry');

describe('the keys of the pad', () => {
  it.each(['light', 'dark'] as const)(
    'look as if they can be pressed, all of them (%s)',
    async (scheme) => {
      const { page, maker, pad, tap } = await opened(390, 844);
      await page.emulateMedia({ colorScheme: scheme });
      await tap('top_length');
      await pad.waitFor();
      const look = (name: string) =>
        pad
          .getByRole('button', { name, exact: true })
          .evaluate((key) => [getComputedStyle(key).backgroundColor, getComputedStyle(key).color]);
      const usual = await look('7');
      for (const name of ['Sixteenths', 'Keyboard', 'Cancel']) {
        expect(await look(name), name).toEqual(usual);
      }
      await maker.page.context().close();
    },
  );
});

describe.each([
  [768, 1024],
  [1024, 768],
  [390, 844],
])('the pad for numbers at %i by %i', (width, height) => {
  it('G66 has keys for fingers, and leaves the cell that it writes in sight', async () => {
    const { page, pad, complaints, press, tap } = await opened(width, height);
    const cell = await tap('top_length');
    await pad.waitFor();
    for (const turn of ['Sixteenths', 'Eighths']) {
      const sizes = await pad.getByRole('button').evaluateAll((keys) =>
        keys.map((key) => {
          const { width: across, height: down } = key.getBoundingClientRect();
          return Math.min(across, down);
        }),
      );
      expect(Math.min(...sizes)).toBeGreaterThanOrEqual(44);
      expect(await missed(pad, 'button')).toEqual([]);
      await press(turn);
    }
    await press('9', '0', '1/2');
    const [box, top] = [await cell.boundingBox(), await pad.boundingBox()];
    expect((box?.y ?? 0) + (box?.height ?? 0)).toBeLessThanOrEqual((top?.y ?? 0) + 1);
    expect(await words(cell)).toBe('90 1/2');
    await press('Done');
    await pad.waitFor({ state: 'detached' });
    expect(await words(cell)).toMatch(/90 ?1\/2$/);
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});

describe('the pad for numbers', () => {
  it('G66 begins anew on a cell, replaces a fraction, and keeps the device keyboard down', async () => {
    const { page, maker, pad, complaints, press, tap } = await opened(768, 1024);
    const cell = await tap('top_length');
    await press('7', '1/2');
    expect(await line(page).inputValue()).toBe('7 1/2');
    expect(await line(page).getAttribute('inputmode')).toBe('none');
    await press('3/8');
    expect(await line(page).inputValue()).toBe('7 3/8');
    await press('Delete the last', 'feet', 'Sixteenths', '11/16');
    expect(await line(page).inputValue()).toBe("7'11/16");
    // A digit after a whole number begins the next one.
    await press('9', '6', 'Next');
    expect(await words(cell)).toMatch(/96$/);
    expect(await maker.cellAt(maker.place('top_width')).getAttribute('class')).toContain('focus');
    await press('1', '0', '5', '0', 'mm', 'Next');
    expect(await words(maker.cellAt(maker.place('top_width')))).toMatch(
      /41 ?11\/32|41 ?5\/16|41\.3/,
    );
    await press('9', 'Cancel');
    expect(await line(page).inputValue()).not.toBe('9');
    // Words are not for the pad: it gives way, and comes back with the next number.
    await maker.cellAt({ ...maker.place('top_length'), column: 0 }).tap();
    await pad.waitFor({ state: 'detached' });
    await tap('top_length');
    await pad.waitFor();
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('G66 draws an inch on which each fraction is pressed where a rule has it', async () => {
    const { page, pad, press, tap } = await opened(390, 844);
    await tap('top_length');
    await pad.waitFor();
    for (const turn of ['Sixteenths', 'Eighths']) {
      const places = await pad.locator('.pad-inch').evaluate((inch) => {
        const { left, width } = inch.getBoundingClientRect();
        return [...inch.querySelectorAll('button')].map((key) => {
          const box = key.getBoundingClientRect();
          const [over = 0, under = 1] = (key.textContent ?? '').split('/').map(Number);
          return { at: (box.left + box.width / 2 - left) / width, wanted: over / under };
        });
      });
      expect(places.length).toBeGreaterThan(6);
      // Half a sixteenth would be another fraction.
      for (const { at, wanted } of places) expect(Math.abs(at - wanted)).toBeLessThan(1 / 64);
      await press(turn);
    }
    await page.context().close();
  });

  it('G66 has no inch where millimeters or no length are entered, and half a millimeter at one press', async () => {
    const { page, pad, complaints, press, tap } = await opened(768, 1024);
    await tap('moisture_build');
    await pad.waitFor();
    expect(await pad.locator('.pad-inch').count()).toBe(0);
    await tap('top_width');
    await pad.locator('.pad-inch').waitFor();
    await command(page, 'Change to millimeters');
    const cell = await tap('top_width');
    await pad.waitFor();
    expect(await pad.locator('.pad-inch').count()).toBe(0);
    await press('1', '0', '5', '0', 'and a half', 'Done');
    await expect.poll(() => words(cell)).toMatch(/1050\.5$/);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  it('G66 gives an entry to the device keyboard as it is', async () => {
    const { page, pad, complaints, press, tap } = await opened(768, 1024);
    const cell = await tap('top_length');
    await press('9', 'Keyboard');
    await pad.waitFor({ state: 'detached' });
    expect(await line(page).getAttribute('inputmode')).toBe('text');
    expect(await line(page).evaluate((one) => one === document.activeElement)).toBe(true);
    await page.keyboard.type('9');
    await page.keyboard.press('Enter');
    expect(await words(cell)).toMatch(/99$/);
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PICTURES, take } from '../scripts/pictures.mjs';
import { type App, startApp } from './support/app.ts';

/**
 * The main screens look as in the pictures that are kept. Whoever changes a look on purpose takes them anew
 * (`node tests/scripts/picture.mjs`) and looks at them.
 */

/** A pixel differs where a channel does by more than this: letters are drawn a little otherwise elsewhere. */
const SHADE = 64;
/** So much of a screen may differ. */
const SHARE = 0.02;

const kept = (name: string): Buffer =>
  readFileSync(join(import.meta.dirname, 'pictures', `${name}.png`));

let app: App;
let page: Page;
beforeAll(async () => {
  app = await startApp();
  page = await app.browser.newPage();
});
afterAll(() => app.close());

/** The share of pixels that differ, 0 to 1; all of them where the sizes do. */
function difference(one: Buffer, other: Buffer): Promise<number> {
  return page.evaluate(
    async ({ pictures, shade }) => {
      const [a, b] = await Promise.all(
        pictures.map(async (picture) => {
          const image = new Image();
          image.src = `data:image/png;base64,${picture}`;
          await image.decode();
          const canvas = new OffscreenCanvas(image.width, image.height);
          const context = canvas.getContext('2d');
          context?.drawImage(image, 0, 0);
          return context?.getImageData(0, 0, image.width, image.height);
        }),
      );
      if (a === undefined || b === undefined || a.width !== b.width || a.height !== b.height)
        return 1;
      let many = 0;
      for (let i = 0; i < a.data.length; i += 4) {
        const differs = [0, 1, 2].some(
          (channel) => Math.abs((a.data[i + channel] ?? 0) - (b.data[i + channel] ?? 0)) > shade,
        );
        if (differs) many += 1;
      }
      return many / (a.data.length / 4);
    },
    { pictures: [one, other].map((buffer) => buffer.toString('base64')), shade: SHADE },
  );
}

describe('the screen', () => {
  it.each(PICTURES)('$name looks as in its picture', async (picture) => {
    const now = await take(app.browser, app.address, picture);
    expect(await difference(kept(picture.name), now)).toBeLessThan(SHARE);
  });

  it('would be found to look otherwise', async () => {
    expect(await difference(kept('drawing'), kept('cut-and-buy'))).toBeGreaterThan(SHARE);
    expect(await difference(kept('drawing'), kept('drawing'))).toBe(0);
  });
});

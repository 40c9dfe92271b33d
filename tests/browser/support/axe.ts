import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface Found {
  readonly id: string;
  readonly nodes: readonly { readonly target: readonly unknown[] }[];
}

/** Rules of axe that read colours; all others read what is there, which is the same in the light and in the dark. */
const OF_COLOURS = ['color-contrast', 'link-in-text-block'];

/**
 * What axe finds on a page, each with where; the page has to be opened with `bypassCSP`.
 * @param which rules: all that axe has switched on, or those that read colours
 */
export async function violations(
  page: Page,
  which: 'all' | 'colours' = 'all',
): Promise<readonly string[]> {
  if (!(await page.evaluate(() => Reflect.has(window, 'axe')))) await page.evaluate(AXE);
  const found = await page.evaluate(
    async (rules) => {
      const axe = Reflect.get(window, 'axe') as {
        run(options: object): Promise<{ violations: Found[] }>;
      };
      // Only what is wrong is worked out in full, with where it is.
      const options = { resultTypes: ['violations'], ...(rules ? { runOnly: rules } : {}) };
      return (await axe.run(options)).violations;
    },
    which === 'colours' ? OF_COLOURS : undefined,
  );
  return found.map(
    ({ id, nodes }) => `${id}: ${nodes.map((node) => node.target.join(' ')).join('; ')}`,
  );
}

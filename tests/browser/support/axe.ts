import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface Found {
  readonly id: string;
  readonly nodes: readonly { readonly target: readonly unknown[] }[];
}

/** What axe finds on a page, each with where; the page has to be opened with `bypassCSP`. */
export async function violations(page: Page): Promise<readonly string[]> {
  await page.evaluate(AXE);
  const found = await page.evaluate(async () => {
    const axe = Reflect.get(window, 'axe') as { run(): Promise<{ violations: Found[] }> };
    return (await axe.run()).violations;
  });
  return found.map(
    ({ id, nodes }) => `${id}: ${nodes.map((node) => node.target.join(' ')).join('; ')}`,
  );
}

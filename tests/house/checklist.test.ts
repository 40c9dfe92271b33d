import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = join(import.meta.dirname, '../..');
const lines = [
  ...readFileSync(join(root, 'apps/grid/CHECKLIST.md'), 'utf8').matchAll(
    /^\| (G\d\d) +\| (P\d) +\| .+? \| (tested|in part|not yet) +\|/gm,
  ),
].map(([, id = '', , state = '']) => ({ id, state }));

/** Ids in the titles of browser tests. */
function idsInTitles(): Set<string> {
  const found = new Set<string>();
  const folder = join(root, 'tests/browser');
  for (const file of readdirSync(folder).filter((name) => name.endsWith('.test.ts'))) {
    const text = readFileSync(join(folder, file), 'utf8');
    for (const [, ids = ''] of text.matchAll(/(?:\bit|\))\(\s*['"`]((?:G\d\d )+)/g)) {
      for (const id of ids.trim().split(' ')) found.add(id);
    }
  }
  return found;
}

describe('the checklist of the grid', () => {
  const tested = idsInTitles();

  it('has all 64 lines', () => {
    expect(lines).toHaveLength(64);
  });

  it('has a browser test for every line that says so', () => {
    const claimed = lines.filter(({ state }) => state !== 'not yet').map(({ id }) => id);
    expect(claimed.filter((id) => !tested.has(id))).toEqual([]);
  });

  it('says of no line that is tested that it is not yet there', () => {
    const open = new Set(lines.filter(({ state }) => state === 'not yet').map(({ id }) => id));
    const known = new Set(lines.map(({ id }) => id));
    expect([...tested].filter((id) => open.has(id) || !known.has(id))).toEqual([]);
  });
});

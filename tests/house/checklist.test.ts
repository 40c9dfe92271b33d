import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = join(import.meta.dirname, '../..');
const lines = [
  ...readFileSync(join(root, 'apps/grid/CHECKLIST.md'), 'utf8').matchAll(
    /^\| (G\d\d) +\| (P\d) +\| .+? \| (tested|in part|not yet) +\|/gm,
  ),
].map(([, id = '', , state = '']) => ({ id, state }));

/** What hands do, by id. */
const hands = [
  ...readFileSync(join(root, 'apps/grid/CHECKLIST.md'), 'utf8').matchAll(
    /^\| (Y\d\d) +\| \S.+ \|$/gm,
  ),
].map(([, id = '']) => id);

/** The browser tests that bear ids in their titles, each with its text up to the next one. */
const titled = readdirSync(join(root, 'tests/browser'))
  .filter((name) => name.endsWith('.test.ts'))
  .flatMap((file) =>
    readFileSync(join(root, 'tests/browser', file), 'utf8')
      .split(/^ {2}(?=it[.(])/m)
      .flatMap((text) => {
        const [, ids = ''] = /(?:^it|\))\(\s*['"`]((?:[A-Z]\d{1,2} )+)/.exec(text) ?? [];
        return ids === '' ? [] : [{ ids: ids.trim().split(' '), text }];
      }),
  );

/** Ids of the checklist in the titles of browser tests. */
const idsInTitles = (): Set<string> =>
  new Set(titled.flatMap(({ ids }) => ids).filter((id) => /^G\d\d$/.test(id)));

/** What a hand does: a key, the pointer, a finger. */
const BY_HAND =
  /\bpress\(|keyboard\.|mouse\.|\.(?:click|dblclick|tap|hover)\(|dispatchTouchEvent|\btype(?:Row)?\(/;

describe('the checklist of the grid', () => {
  const tested = idsInTitles();

  it('has all 66 lines', () => {
    expect(lines).toHaveLength(66);
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

describe('what hands do', () => {
  it('are forty things or more, each named once', () => {
    expect(hands.length).toBeGreaterThanOrEqual(40);
    expect(new Set(hands).size).toBe(hands.length);
  });

  it('have each a browser test with real keys or the pointer', () => {
    const byHand = titled.filter(({ text }) => BY_HAND.test(text)).flatMap(({ ids }) => ids);
    expect(hands.filter((id) => !byHand.includes(id))).toEqual([]);
  });

  it('are all on the list that tests name', () => {
    const named = titled.flatMap(({ ids }) => ids).filter((id) => /^Y\d\d$/.test(id));
    expect(named.filter((id) => !hands.includes(id))).toEqual([]);
  });
});

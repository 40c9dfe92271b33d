import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const source = new URL('.', import.meta.url);
/** What an open workbook rests on; it keeps rules of the same book. */
const document = new URL('../../document/src/', import.meta.url);
const rules = new Set(
  [...readFileSync(new URL('../RULES.md', source), 'utf8').matchAll(/^- \*\*([A-Z]\d+)\*\*/gm)].map(
    ([, id]) => id,
  ),
);

function testsUnder(folder: URL): string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((entry) => entry.endsWith('.test.ts') && !entry.endsWith('rules.test.ts'))
    .map((entry) => readFileSync(new URL(entry.replaceAll('\\', '/'), folder), 'utf8'));
}

function idsInTitles(): Set<string> {
  const found = new Set<string>();
  for (const text of [source, document].flatMap(testsUnder)) {
    for (const [, ids] of text.matchAll(/(?:\bit|\))\(\s*['"`]((?:[A-Z]\d+ )+)/g)) {
      for (const id of ids!.trim().split(' ')) found.add(id);
    }
  }
  return found;
}

describe('the rule book', () => {
  it('has at least one test for every rule', () => {
    const tested = idsInTitles();
    expect([...rules].filter((id) => !tested.has(id!))).toEqual([]);
  });

  it('knows every rule that a test names', () => {
    expect([...idsInTitles()].filter((id) => !rules.has(id))).toEqual([]);
  });
});

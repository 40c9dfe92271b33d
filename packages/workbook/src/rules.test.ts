import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const source = new URL('.', import.meta.url);
const rules = new Set(
  [...readFileSync(new URL('../RULES.md', source), 'utf8').matchAll(/^- \*\*([A-Z]\d+)\*\*/gm)].map(
    ([, id]) => id,
  ),
);

function idsInTitles(): Set<string> {
  const found = new Set<string>();
  for (const entry of readdirSync(source, { recursive: true, encoding: 'utf8' })) {
    if (!entry.endsWith('.test.ts') || entry.endsWith('rules.test.ts')) continue;
    const text = readFileSync(new URL(entry.replaceAll('\\', '/'), source), 'utf8');
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

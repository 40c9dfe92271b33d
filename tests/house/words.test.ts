import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { allShown, RULES, wordProblems } from '../scripts/words.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));

describe('what a maker is shown', () => {
  const texts = allShown(root);

  it('is found: labels, messages, descriptions of functions, texts of templates', () => {
    const all = new Set(texts.map(({ text }) => text));
    for (const text of ['Shop sheets', 'Save a version', 'Can\u0027t tell'])
      expect(all.has(text), text).toBe(true);
    expect(all.has('How many board feet a board is, or several alike.')).toBe(true);
    expect(all.has('Length of the top')).toBe(true);
    expect([...all].some((text) => text.startsWith('This is not a workbook'))).toBe(true);
  });

  it('is said in our words', () => {
    expect(wordProblems(texts)).toEqual([]);
  });
});

describe('a word that we do not use', () => {
  let house = '';
  beforeAll(() => {
    house = mkdtempSync(join(tmpdir(), 'kerfbook-words-'));
    for (const folder of ['apps', 'packages', 'templates']) mkdirSync(join(house, folder));
  });
  afterAll(() => rmSync(house, { recursive: true, force: true }));

  const put = (file: string, text: string): void => {
    mkdirSync(dirname(join(house, file)), { recursive: true });
    writeFileSync(join(house, file), text);
  };
  const problems = () => wordProblems(allShown(house));

  it.each([
    [
      'apps/a/src/one.tsx',
      'export const One = () => <button type="button">\n  Leave it\n</button>;',
    ],
    ['apps/a/src/one.tsx', 'export const One = () => <p aria-label="Side table" />;'],
    ['apps/a/src/one.ts', "export const one = { says: 'Put away' };"],
    // biome-ignore lint/suspicious/noTemplateCurlyInString: the source of a template text
    ['apps/a/src/one.ts', 'export const one = (n: number) => `Cut ${n} staves`;'],
    ['packages/p/src/one.ts', "export const one = 'The vapour of the room';"],
    ['templates/one.json', '{ "value": "What comes of it" }'],
    ['templates/one.json', '{ "name": "Labour" }'],
  ])('is found in %s: %s', (file, text) => {
    put(file, text);
    expect(problems()).toEqual([expect.stringContaining(`${file}:`)]);
    put(file, '{}');
  });

  it('may stand in code, in tests and within other words', () => {
    put('apps/a/src/one.tsx', 'export const One = () => <p className="side table" />;');
    put('apps/a/src/one.test.ts', "export const one = 'Put away';");
    put('packages/p/src/one.ts', "// staves\nexport const one = 'Leave it blank to mark none.';");
    put('packages/p/src/two.ts', "import 'staves';\nexport const two = 'colour';");
    expect(problems()).toEqual([]);
  });

  it('is told with what to say instead', () => {
    for (const [not, say] of RULES) expect(say, String(not)).toMatch(/\w/);
    put('apps/a/src/one.tsx', 'export const One = () => <p>Save as mine</p>;');
    expect(problems()).toEqual(['apps/a/src/one.tsx:1 "Save as mine": say save as my template']);
  });
});

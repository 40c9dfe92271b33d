import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { filesUnder } from '../scripts/files.mjs';

/**
 * A selector that stands twice in a style sheet is how two rules get each other's declarations when
 * changes are put together: nothing complains, and what is struck out is what should not be.
 */

const root = fileURLToPath(new URL('../..', import.meta.url));
const sheets = filesUnder(root).filter((file) => file.endsWith('.css'));

interface Rule {
  /** The at-rules around it, outermost first. */
  readonly within: string;
  /** Its whole selector, white space evened out. */
  readonly selector: string;
  readonly line: number;
  readonly properties: readonly string[];
}

/** The rules of a style sheet that has no rules within rules. */
function rulesOf(text: string): Rule[] {
  // Comments and strings may hold braces; what is put in their place keeps the lines.
  const plain = text
    .replaceAll(/\/\*[\s\S]*?\*\//g, (comment) => comment.replaceAll(/[^\n]/g, ' '))
    .replaceAll(/"[^"\n]*"/g, (string) => `"${string.slice(1, -1).replaceAll(/[{};,]/g, '_')}"`);
  const rules: Rule[] = [];
  const around: string[] = [];
  let from = 0;
  for (const { 0: brace, index } of plain.matchAll(/[{}]/g)) {
    const before = plain.slice(from, index);
    if (brace === '{') {
      // Statements such as @import end with ";" and belong to no block.
      around.push(evened(before.slice(before.lastIndexOf(';') + 1)));
    } else {
      const selector = around.pop() ?? '';
      if (!selector.startsWith('@')) {
        rules.push({
          within: around.join(' '),
          selector,
          line: plain.slice(0, from).split('\n').length,
          properties: [...before.matchAll(/(?:^|;)\s*([\w-]+)\s*:/g)].map(([, name]) => name ?? ''),
        });
      }
    }
    from = index + 1;
  }
  return rules;
}

const evened = (text: string): string => text.trim().replaceAll(/\s+/g, ' ');

/** The selectors of a list, split at the commas that stand in no brackets. */
function selectorsOf(list: string): string[] {
  let depth = 0;
  const parts = [''];
  for (const letter of list) {
    if (letter === '(' || letter === '[') depth += 1;
    if (letter === ')' || letter === ']') depth -= 1;
    if (letter === ',' && depth === 0) parts.push('');
    else parts.push((parts.pop() ?? '') + letter);
  }
  return parts.map((part) => part.trim());
}

/** What is wrong with a style sheet, a sentence each. */
function complaintsAbout(file: string, text: string): string[] {
  const complaints: string[] = [];
  const whole = new Map<string, number>();
  const told = new Map<string, number>();
  for (const { within, selector, line, properties } of rulesOf(text)) {
    // Steps of one animation are no selectors.
    if (within.includes('@keyframes')) continue;
    const where = within === '' ? '' : ` within ${within}`;
    const key = `${within} ${selector}`;
    const first = whole.get(key);
    if (first !== undefined) {
      complaints.push(
        `${file}:${line}: "${selector}" stands at line ${first} as well${where}. Write one rule, and look whether one of the two was meant for another element.`,
      );
      continue;
    }
    whole.set(key, line);
    for (const one of selectorsOf(selector)) {
      for (const property of properties) {
        const said = `${within} ${one} ${property}`;
        const before = told.get(said);
        if (before !== undefined) {
          complaints.push(
            `${file}:${line}: the ${property} of "${one}" is set at line ${before} already${where}. Set it once.`,
          );
        }
        told.set(said, line);
      }
    }
  }
  return complaints;
}

describe('style sheets', () => {
  it('were found and read', () => {
    expect(sheets.length).toBeGreaterThan(8);
    const bench = readFileSync(join(root, 'apps/grid/src/shop/bench.css'), 'utf8');
    const sizes = rulesOf(bench).filter(({ selector }) => selector === '.bench-size');
    expect(sizes.flatMap(({ properties }) => properties)).toContain('font-size');
    expect(rulesOf(bench).some(({ within }) => within.startsWith('@media'))).toBe(true);
  });

  it('hold no selector twice, and set no property of one twice', () => {
    const complaints = sheets.flatMap((file) =>
      complaintsAbout(file, readFileSync(join(root, file), 'utf8')),
    );
    expect(complaints).toEqual([]);
  });

  it('would be refused: the same rule twice, a property set again, each in its own surroundings', () => {
    expect(complaintsAbout('a.css', '.a { color: red; }\n\n.a {\n  margin: 0;\n}')).toEqual([
      'a.css:3: ".a" stands at line 1 as well. Write one rule, and look whether one of the two was meant for another element.',
    ]);
    expect(complaintsAbout('a.css', '.a,\n.b { gap: 0; }\n.b { gap: 1px; }')).toEqual([
      'a.css:3: the gap of ".b" is set at line 2 already. Set it once.',
    ]);
    const media = '@media print { .a { color: red; } .a { margin: 0; } }';
    expect(complaintsAbout('a.css', media)).toHaveLength(1);
    expect(complaintsAbout('a.css', media)[0]).toContain('within @media print');
  });

  it('are not refused for what only looks alike', () => {
    expect(
      complaintsAbout(
        'a.css',
        '@import "b;{}";\n/* .a {} */ .a { color: red; }\n.a,\n.b { margin: 0; }\n@media print { .a { color: black; } }\n.a:is(.b, .c) { color: blue; }\n@keyframes x { from { top: 0; } }\n@keyframes y { from { top: 0; } }',
      ),
    ).toEqual([]);
  });
});

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { AVOIDED, clubSources, clubSqlProblems, sqlProblems } from '../scripts/club-sql.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));

describe('the SQL of the club', () => {
  it('is read: its tables and what writes to them', () => {
    const files = clubSources(root);
    expect(files).toContain('apps/club/src/database/migrations/step-1.ts');
    expect(files).toContain('apps/club/src/database/open.ts');
    expect(files.every((file) => !file.includes('.test.'))).toBe(true);
  });

  it('does without what a spread database has not, or each has its own way', () => {
    expect(clubSqlProblems(root)).toEqual([]);
  });

  it('is listed with its reasons for developers', () => {
    const page = readFileSync(join(root, 'DEVELOPERS.md'), 'utf8');
    const rows = page
      .split('\n')
      .filter((line) => line.startsWith('|'))
      .map((line) => line.split('|').map((cell) => cell.trim()));
    for (const { what, why } of AVOIDED) expect(rows).toContainEqual(['', what, why, '']);
  });
});

describe('what the club does without', () => {
  it.each(AVOIDED.flatMap(({ what, like }) => like.map((text) => [what, text] as const)))(
    'is found: %s in %s',
    (what, text) => {
      const found = sqlProblems('x.ts', `const one = 1;\nconst two = ${JSON.stringify(text)};`);
      const asSource = sqlProblems('x.ts', `const one = 1;\n${text}`);
      const all = [...found, ...asSource];
      expect(all.some((one) => one.startsWith(`x.ts:2 uses ${what} `))).toBe(true);
    },
  );

  it('may be spoken of', () => {
    const spoken = '/** No sequences; never `for update`. */\n// lock table\nconst one = 1;';
    expect(sqlProblems('x.ts', spoken)).toEqual([]);
    const harmless =
      "const says = 'Look for the update of the club.';\nconst at = database.now();\nconst { offset } = file;";
    expect(sqlProblems('x.ts', harmless)).toEqual([]);
  });
});

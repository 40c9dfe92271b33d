import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = join(import.meta.dirname, '../..');
const page = readFileSync(join(root, 'apps/club/SECURITY.md'), 'utf8');

interface Line {
  readonly number: string;
  readonly evidence: string;
}

const lines: readonly Line[] = page
  .split('\n')
  .filter((line) => /^\| \d/.test(line))
  .map((line) => {
    const [number = '', , evidence = ''] = line
      .split('|')
      .slice(1)
      .map((cell) => cell.trim());
    return { number, evidence };
  });

describe('what the club is checked for', () => {
  it('is a list of lines, few of them open', () => {
    expect(lines.length).toBeGreaterThan(40);
    expect(lines.filter(({ evidence }) => evidence.startsWith('open: ')).length).toBeLessThan(3);
  });

  it.each(lines.filter(({ evidence }) => !evidence.startsWith('open: ')))(
    '$number has its evidence: $evidence',
    ({ evidence }) => {
      const [, file = '', words = ''] = /^`([^`]+)` "([^"]+)"$/.exec(evidence) ?? [];
      expect(words.length).toBeGreaterThan(5);
      expect(readFileSync(join(root, file), 'utf8')).toContain(words);
    },
  );

  it('puts no text together into a query', () => {
    const home = join(root, 'apps/club/src');
    const odd = readdirSync(home, { recursive: true, encoding: 'utf8' })
      .filter((file) => file.endsWith('.ts') && !file.endsWith('.test.ts'))
      .flatMap((file) => {
        const text = readFileSync(join(home, file), 'utf8');
        const raw = [...text.matchAll(/\bsql\.(?:raw|lit)\b|\bsql`[^`]*\$\{(?!sql)/g)];
        return raw.map(([found]) => `${file}: ${found}`);
      });
    // Names of the backup's own tables, and statements that open a connection.
    expect(odd.filter((one) => !/^(?:backup|database|testing)\//.test(one))).toEqual([]);
  });
});

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { call } from './testing/fake-io.ts';

const table = readFileSync(
  new URL('../../../templates/dining-table.json', import.meta.url),
  'utf8',
);
const files = { 'table.json': table };

interface Report {
  readonly tables: readonly { readonly of: string; readonly how: string; readonly note?: string }[];
  readonly cautions: readonly string[];
}

const explain = async (...args: string[]) => {
  const ended = await call(['explain', 'table.json', ...args, '--json'], files);
  return { ...ended, report: JSON.parse(ended.out) as Report };
};

describe('explain', () => {
  it('tells which values of the tables a result rests on and how each was obtained', async () => {
    const { code, report } = await explain('movement_swing');
    expect(code).toBe(0);
    expect(report.tables.map(({ of, how }) => [of, how])).toContainEqual([
      'Black walnut: movement for 1 %, flat-sawn',
      'read',
    ]);
    expect(report.tables.find(({ of }) => of.startsWith('Equation 4-5'))?.how).toBe('from memory');
    expect(report.cautions[0]).toMatch(/outside the 6 to 14 % /);
  });

  // Wood Handbook table 13-5 prints for white oak the row of its group; table 4-3 (10.5 %) gives more
  it('says by how much a coefficient differs from the wood’s own shrinkage', async () => {
    const { report } = await explain('movement_swing', '--set', 'species=Oak, white');
    const oak = report.tables.find(({ of }) => of.startsWith('White oak'));
    expect(oak).toMatchObject({ how: 'row of its group' });
    expect(oak?.note).toMatch(/would give 0\.00376: 3 % more/);
  });

  it('prints it in words', async () => {
    const { out, code, err } = await call(['explain', 'table.json', 'rough_thickness'], files);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(/^From the trade’s tables:$/m);
    expect(out).toMatch(/^ {2}8\/4 hardwood: rough: 2\.000 in, read\. NHLA rules/m);
  });

  it('ends with 2 for a cell that is not there', async () => {
    const { code, err } = await call(['explain', 'table.json', 'no_such'], files);
    expect(code).toBe(2);
    expect(err).toContain('There is no cell "no_such"');
  });
});

import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { emc } from './dining-table-by-hand.ts';

const TEMPLATES = new URL('../../templates/', import.meta.url);

/** What a template says beside an input of the season, or nothing where it has no such input. */
function noteBeside(name: string, template: string): string | undefined {
  const rows: { cells?: Record<string, { name?: string; value?: unknown }> }[] = JSON.parse(
    readFileSync(new URL(template, TEMPLATES), 'utf8'),
  ).sheets.flatMap((sheet: { rows: unknown[] }) => sheet.rows);
  const cells = rows.find(({ cells = {} }) =>
    Object.values(cells).some((cell) => cell.name === name),
  );
  return cells && String(cells.cells?.c4?.value ?? '');
}

/** The two figures of a note: for a dry climate and for a damp, warm coast, in % relative humidity. */
function figures(note: string): [number, number] {
  const [, dry, damp] = /dry climate: about (\d+)\..*coast: about (\d+)\./.exec(note) ?? [];
  return [Number(dry), Number(damp)];
}

/**
 * Where woodwork settles indoors, % moisture content: dry southwestern states 4 to 9, damp and warm
 * coasts 8 to 13. Wood Handbook (FPL-GTR-190), table 13-2; the ranges are values from memory.
 */
const SETTLES = { dry_humidity: [4, 8], humid_humidity: [9, 13] } as const;

describe('what notes say of the air of a place', () => {
  const templates = readdirSync(TEMPLATES).filter((file) => file.endsWith('.json'));
  for (const [name, settles] of Object.entries(SETTLES)) {
    it(`${name} leads to the moisture of table 13-2 at 70 °F, in every template that asks for it`, () => {
      const notes = templates
        .map((file) => noteBeside(name, file))
        .filter((note) => note !== undefined);
      expect(notes).toHaveLength(11);
      for (const note of notes) {
        const [dry, damp] = figures(note);
        expect(emc(70, dry)).toBeCloseTo(settles[0], 0);
        expect(emc(70, damp)).toBeCloseTo(settles[1], 0);
      }
    });
  }
});

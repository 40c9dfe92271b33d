import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Fault, findSpecies, woodsMeant } from '@kerfbook/wood';
import { type BookDocument, loadText, Workbook } from '@kerfbook/workbook';
import { describe, expect, it } from 'vitest';
import { woodsNeeded } from './readers-woods.ts';

const FOLDER = fileURLToPath(new URL('../../../templates/', import.meta.url));
const names = readdirSync(FOLDER).filter((name) => name.endsWith('.json'));

function template(name: string): BookDocument {
  const loaded = loadText(readFileSync(`${FOLDER}${name}`, 'utf8'));
  if (!loaded.ok) throw new Error(loaded.says);
  return loaded.document;
}

/** The dining table with what is typed into named cells. */
function withTyped(typed: Readonly<Record<string, string>>) {
  const book = Workbook.open(template('dining-table.json'));
  for (const [name, text] of Object.entries(typed)) {
    const at = book.named(name)?.at;
    if (at === undefined) throw new Error(name);
    const cells = [{ row: at.row, column: at.column, text }];
    const done = book.apply({ do: 'enter', sheet: at.sheet, cells });
    if (!done.ok) throw new Error(done.says);
  }
  return book.document();
}

const needed = (document: BookDocument): readonly string[] | undefined =>
  woodsNeeded(document)?.map(({ name }) => name);

describe('woods that a page for readers brings along', () => {
  it.each(names)(
    'of %s are all that its readers may choose, and not all that there are',
    (name) => {
      const document = template(name);
      const woods = needed(document);
      expect(woods).toBeDefined();
      const lists =
        JSON.stringify(document.sheets).match(/"list":\[[^\]]*\],"from":"woods"/g) ?? [];
      const chosen = lists.flatMap((list) => JSON.parse(`{${list}}`).list as string[]);
      if (!['cost.json', 'plywood-cabinet.json'].includes(name))
        expect(chosen.length).toBeGreaterThan(9);
      for (const wood of chosen) expect(woods).toContain(findSpecies(wood).name);
      expect(woods?.length).toBeLessThan(60);
    },
  );

  it('are any where a wood is typed by readers, or put together out of words', () => {
    expect(needed(withTyped({}))).toBeDefined();
    expect(needed(withTyped({ leg_size: '=IF(species="teak",3,4)' }))).toContain('teak');
    expect(needed(withTyped({ species: '="white"&" oak"' }))).toBeUndefined();
    expect(needed(withTyped({ species: '=LOWER("TEAK")' }))).toBeUndefined();
    const document = template('dining-table.json');
    const typed = JSON.parse(JSON.stringify(document), (key, value) =>
      key === 'allow' && value.from === 'woods' ? undefined : value,
    ) as BookDocument;
    expect(needed(typed)).toBeUndefined();
  });

  it('are those a name may mean, and their kin where a figure is missing that is told from them', () => {
    expect(woodsMeant('black walnut').map(({ name }) => name)).toEqual(['black walnut']);
    expect(woodsMeant('oak').length).toBeGreaterThan(5);
    expect(woodsMeant('Length of the top')).toEqual([]);
    expect(() => findSpecies('oak')).toThrow(Fault);
  });
});

import { mkdir, readdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Club } from '../club.ts';
import { keptText } from '../kept/documents.ts';
import { personsOf } from '../kept/persons.ts';
import { CommandRefused } from './refused.ts';

/** One line of the list that lies beside the files. */
interface Indexed {
  readonly file: string;
  readonly title: string;
  readonly maker: string;
  readonly licence: string;
  readonly revision: number;
  /** SHA-256 of the file. */
  readonly sha256: string;
  /** A keeper hid it. */
  readonly hidden?: true;
}

/** Templates that are read at once. */
const AT_ONCE = 200;

/**
 * Writes the last revision of every template as a workbook that any Kerfbook opens, and a list of them.
 * @returns how many there are
 * @throws CommandRefused where the folder has something in it already
 */
export async function exportShelf(club: Club, folder: string): Promise<number> {
  await mkdir(folder, { recursive: true });
  if ((await readdir(folder)).length > 0) {
    throw new CommandRefused(
      `${folder} has something in it already, and nothing is overwritten. Name a new folder.`,
    );
  }
  const names = new Set(['index']);
  const index: Indexed[] = [];
  for await (const row of templatesOf(club)) {
    const file = `${freeName(row.title, names)}.json`;
    await writeFile(join(folder, file), await keptText(club, row.blob), { flag: 'wx' });
    const person = await personsOf(club, [row.maker]);
    index.push({
      file,
      title: row.title,
      maker: person(row.maker).name,
      licence: row.licence,
      revision: row.head,
      sha256: row.sign,
      ...(row.hidden === 1 ? { hidden: true } : {}),
    });
  }
  const text = `${JSON.stringify({ templates: index }, null, 2)}\n`;
  await writeFile(join(folder, 'index.json'), text, { flag: 'wx' });
  return index.length;
}

async function* templatesOf({ id, database }: Club) {
  let last = '';
  for (;;) {
    const rows = await database.read
      .selectFrom('template')
      .innerJoin('revision', (on) =>
        on
          .onRef('revision.club', '=', 'template.club')
          .onRef('revision.template', '=', 'template.id')
          .onRef('revision.number', '=', 'template.head'),
      )
      .select([
        'template.id',
        'template.title',
        'template.maker',
        'template.licence',
        'template.head',
        'template.hidden',
        'revision.blob',
        'revision.sign',
      ])
      .where('template.club', '=', id)
      .where('template.id', '>', last)
      .orderBy('template.id')
      .limit(AT_ONCE)
      .execute();
    yield* rows;
    if (rows.length < AT_ONCE) return;
    last = rows.at(-1)?.id ?? last;
  }
}

/** Names that one system or another keeps for devices. */
const DEVICES = /^(?:con|prn|aux|nul|com\d|lpt\d)$/;

/** A file name of letters and digits alone, which no other title has. */
export function freeName(title: string, taken: Set<string>): string {
  const plain = [
    ...title
      .normalize('NFKC')
      .toLowerCase()
      .replace(/[^\p{L}\p{N}]+/gu, '-')
      .replace(/^-+|-+$/g, ''),
  ]
    .slice(0, 50)
    .join('');
  const name = plain === '' || DEVICES.test(plain) ? `template-${plain}`.replace(/-$/, '') : plain;
  for (let n = 1; ; n += 1) {
    const one = n === 1 ? name : `${name}-${n}`;
    if (!taken.has(one)) {
      taken.add(one);
      return one;
    }
  }
}

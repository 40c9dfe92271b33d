import { Unreadable } from '../unreadable.ts';
import { readXml } from '../xml/read.ts';
import type { Archive } from '../zip/read.ts';
import { type Relation, relationsOf } from './package-parts.ts';

/** A sheet as the file lists it. */
export interface ListedSheet {
  readonly name: string;
  readonly isHidden: boolean;
  /** Its part; undefined where the file has none. */
  readonly part: string | undefined;
  /** `worksheet`, or what else it is: a chart, a dialog, macros. */
  readonly kind: string;
}

/** A name and what it stands for, as the file writes it. */
export interface ListedName {
  readonly name: string;
  readonly means: string;
  /** The sheet it belongs to, counted from 0; undefined: the whole file. */
  readonly sheet: number | undefined;
}

/** What a file says of itself as a whole. */
export interface WorkbookPart {
  readonly sheets: readonly ListedSheet[];
  readonly names: readonly ListedName[];
  /** Days are counted from 1904-01-01. */
  readonly from1904: boolean;
  readonly relations: readonly Relation[];
}

const USUAL = 'xl/workbook.xml';
const MOST_SHEETS = 1_000;
const MOST_NAMES = 20_000;

/** @throws Unreadable where the file is no workbook */
export function readWorkbookPart(archive: Archive): WorkbookPart {
  const main =
    relationsOf(archive, '').find(({ kind }) => kind === 'officeDocument')?.target ?? USUAL;
  const bytes = archive.bytes(main);
  if (bytes === undefined) {
    throw new Unreadable('The file is no spreadsheet: it has no workbook in it.');
  }
  const relations = relationsOf(archive, main);
  const byId = new Map(relations.map((one) => [one.id, one]));
  const sheets: ListedSheet[] = [];
  const names: ListedName[] = [];
  let from1904 = false;
  let name: { readonly name: string; readonly sheet: number | undefined } | undefined;
  let means = '';
  readXml(bytes, main, {
    open(tag, said) {
      if (tag === 'sheet') {
        const relation = byId.get(said['r:id'] ?? idOf(said) ?? '');
        sheets.push({
          name: said.name ?? '',
          isHidden: said.state === 'hidden' || said.state === 'veryHidden',
          part: relation?.isOutside === true ? undefined : relation?.target,
          kind: relation?.kind ?? 'worksheet',
        });
        if (sheets.length > MOST_SHEETS)
          throw new Unreadable(`The file has more than ${MOST_SHEETS} sheets; it is not opened.`);
      } else if (tag === 'workbookPr') from1904 = isYes(said.date1904);
      else if (tag === 'definedName' && said.name !== undefined) {
        const local = Number(said.localSheetId ?? Number.NaN);
        name = { name: said.name, sheet: Number.isInteger(local) ? local : undefined };
        means = '';
        if (names.length > MOST_NAMES)
          throw new Unreadable(`The file has more than ${MOST_NAMES} names; it is not opened.`);
      }
    },
    text(piece) {
      if (name !== undefined) means += piece;
    },
    close(tag) {
      if (tag !== 'definedName' || name === undefined) return;
      names.push({ ...name, means: means.trim() });
      name = undefined;
    },
  });
  if (sheets.length === 0) throw new Unreadable('The file is damaged: it lists no sheet.');
  return { sheets, names, from1904, relations };
}

/** Files call the prefix of relations as they like. */
const idOf = (said: Readonly<Record<string, string>>): string | undefined =>
  Object.entries(said).find(([key]) => key.endsWith(':id'))?.[1];

/** Yes, as the schema writes it. */
export const isYes = (word: string | undefined): boolean => word === '1' || word === 'true';

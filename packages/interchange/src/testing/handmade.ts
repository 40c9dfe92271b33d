import { strToU8, type Zippable, zipSync } from 'fflate';

const NS = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"';
const R = 'xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"';
const RELATIONS = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const PACKAGE = 'http://schemas.openxmlformats.org/package/2006/relationships';

/** What a file made by hand says; everything else is as small as it can be. */
export interface Handmade {
  /** What stands in `sheetData` of each sheet, by its name. */
  readonly sheets: Readonly<Record<string, string>>;
  /** What stands behind it: merges, rules, links. */
  readonly behind?: Readonly<Record<string, string>>;
  /** What stands before it: columns, panes. */
  readonly before?: Readonly<Record<string, string>>;
  /** What stands in `definedNames`. */
  readonly names?: string;
  /** Attributes of `workbookPr`. */
  readonly workbookPr?: string;
  readonly strings?: readonly string[];
  /** What stands in `styleSheet`. */
  readonly styles?: string;
  /** Further parts, or others in the place of these, by their names. */
  readonly parts?: Readonly<Record<string, string | Uint8Array>>;
}

/** The parts of a file made by hand, by their names. */
export function handmadeParts(made: Handmade): Record<string, Uint8Array> {
  const names = Object.keys(made.sheets);
  const relation = (id: number, kind: string, target: string): string =>
    `<Relationship Id="rId${id}" Type="${RELATIONS}/${kind}" Target="${target}"/>`;
  const parts: Record<string, string | Uint8Array> = {
    '_rels/.rels': `<Relationships xmlns="${PACKAGE}">${relation(1, 'officeDocument', 'xl/workbook.xml')}</Relationships>`,
    'xl/workbook.xml': `<workbook ${NS} ${R}><workbookPr ${made.workbookPr ?? ''}/><sheets>${names
      .map((name, at) => `<sheet name="${name}" sheetId="${at + 1}" r:id="rId${at + 1}"/>`)
      .join('')}</sheets><definedNames>${made.names ?? ''}</definedNames></workbook>`,
    'xl/_rels/workbook.xml.rels': `<Relationships xmlns="${PACKAGE}">${names
      .map((_, at) => relation(at + 1, 'worksheet', `worksheets/sheet${at + 1}.xml`))
      .join(
        '',
      )}${relation(90, 'sharedStrings', 'sharedStrings.xml')}${relation(91, 'styles', 'styles.xml')}</Relationships>`,
    'xl/sharedStrings.xml': `<sst ${NS}>${(made.strings ?? []).map((text) => `<si><t>${text}</t></si>`).join('')}</sst>`,
    'xl/styles.xml': `<styleSheet ${NS}>${made.styles ?? ''}</styleSheet>`,
    ...Object.fromEntries(
      names.map((name, at) => [
        `xl/worksheets/sheet${at + 1}.xml`,
        `<worksheet ${NS} ${R}>${made.before?.[name] ?? ''}<sheetData>${made.sheets[name]}</sheetData>${made.behind?.[name] ?? ''}</worksheet>`,
      ]),
    ),
    ...made.parts,
  };
  return Object.fromEntries(
    Object.entries(parts).map(([name, part]) => [
      name,
      typeof part === 'string' ? strToU8(part) : part,
    ]),
  );
}

/** A file made by hand. */
export const handmade = (made: Handmade): Uint8Array => packed(handmadeParts(made));

/** Parts as an archive. */
export const packed = (parts: Readonly<Record<string, Uint8Array>>, level: 0 | 9 = 9): Uint8Array =>
  zipSync(
    Object.fromEntries(
      Object.entries(parts).map(([name, part]) => [name, [part, { level }]]),
    ) as Zippable,
  );

import { strToU8 } from 'fflate';
import { MIME, SPACES } from '../ods/package.ts';
import { packed } from './handmade.ts';

/** What an ods file made by hand says; everything else is as small as it can be. */
export interface HandmadeOds {
  /** What stands in `office:spreadsheet`. */
  readonly body: string;
  /** What stands in `office:automatic-styles`. */
  readonly styles?: string;
  /** What stands before the root of the content. */
  readonly before?: string;
  /** How much it is packed; as much as can be where left out. */
  readonly level?: 0 | 9;
  /** Further parts, or others in the place of these, by their names. */
  readonly parts?: Readonly<Record<string, string>>;
}

const NAMED = `${Object.entries(SPACES)
  .map(([prefix, uri]) => `xmlns:${prefix}="${uri}"`)
  .join(' ')} xmlns:calcext="urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0"`;

/** An ods file made by hand. */
export const handmadeOds = ({
  body,
  styles = '',
  before = '',
  parts = {},
  level = 9,
}: HandmadeOds): Uint8Array =>
  packed(
    Object.fromEntries(
      Object.entries({
        mimetype: MIME,
        'content.xml': `${before}<office:document-content ${NAMED} office:version="1.3"><office:automatic-styles>${styles}</office:automatic-styles><office:body><office:spreadsheet>${body}</office:spreadsheet></office:body></office:document-content>`,
        ...parts,
      }).map(([name, text]) => [name, strToU8(text)]),
    ),
    level,
  );

/** A table with rows in it. */
export const table = (name: string, rows: string): string =>
  `<table:table table:name="${name}">${rows}</table:table>`;

/** A row with cells in it. */
export const line = (...cells: readonly string[]): string =>
  `<table:table-row>${cells.join('')}</table:table-row>`;

/** A cell with a number. */
export const number = (value: number, more = ''): string =>
  `<table:table-cell office:value-type="float" office:value="${value}" ${more}><text:p>${value}</text:p></table:table-cell>`;

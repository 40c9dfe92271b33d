import { columnName } from '@kerfbook/document';
import type { FlatCell } from '../flat/flat-book.ts';
import { cellText, DECLARATION, element } from '../xml/write.ts';

const SPREADSHEET = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';

type Remarked = FlatCell & { readonly remark: string };

/** Cells with remarks. */
export const remarkedCells = (cells: readonly FlatCell[]): readonly Remarked[] =>
  cells.filter((cell): cell is Remarked => cell.remark !== undefined);

/** The part that says what remarks say. */
export function remarksText(cells: readonly Remarked[]): string {
  const list = cells.map(({ row, column, remark }) =>
    element(
      'comment',
      { ref: `${columnName(column)}${row + 1}`, authorId: 0 },
      element('text', {}, element('r', {}, `<t xml:space="preserve">${cellText(remark)}</t>`)),
    ),
  );
  return `${DECLARATION}${element('comments', { xmlns: SPREADSHEET }, `<authors><author>Kerfbook</author></authors>${element('commentList', {}, list.join(''))}`)}`;
}

const WIDTH_PT = 260;
const LETTERS_A_LINE = 52;
const LINE_PT = 13;
const MOST_LINES = 30;

/** The part that says where their boxes stand (ECMA-376 part 4, 19.4: they need a drawing in the former language). */
export function remarkBoxes(cells: readonly Remarked[]): string {
  const shapes = cells.map(({ row, column, remark }, at) => {
    const lines = remark
      .split('\n')
      .reduce((sum, line) => sum + Math.max(1, Math.ceil(line.length / LETTERS_A_LINE)), 0);
    const height = (Math.min(MOST_LINES, lines) + 1) * LINE_PT;
    return (
      `<v:shape id="_x0000_s${1025 + at}" type="#_x0000_t202" style="position:absolute;margin-left:60pt;margin-top:2pt;width:${WIDTH_PT}pt;height:${height}pt;z-index:${at + 1};visibility:hidden" fillcolor="#fffdf9" strokecolor="#857d6e" o:insetmode="auto">` +
      `<v:fill color2="#fffdf9"/><v:path o:connecttype="none"/><v:textbox style="mso-direction-alt:auto"><div style="text-align:left"></div></v:textbox>` +
      `<x:ClientData ObjectType="Note"><x:MoveWithCells/><x:SizeWithCells/><x:AutoFill>False</x:AutoFill><x:Row>${row}</x:Row><x:Column>${column}</x:Column></x:ClientData></v:shape>`
    );
  });
  return (
    `<xml xmlns:v="urn:schemas-microsoft-com:vml" xmlns:o="urn:schemas-microsoft-com:office:office" xmlns:x="urn:schemas-microsoft-com:office:excel">` +
    `<o:shapelayout v:ext="edit"><o:idmap v:ext="edit" data="1"/></o:shapelayout>` +
    `<v:shapetype id="_x0000_t202" coordsize="21600,21600" o:spt="202" path="m,l,21600r21600,l21600,xe"><v:stroke joinstyle="miter"/><v:path gradientshapeok="t" o:connecttype="rect"/></v:shapetype>` +
    `${shapes.join('')}</xml>`
  );
}

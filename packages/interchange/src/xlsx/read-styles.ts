import type { CellDocument } from '@kerfbook/document';
import { roleCalled } from '../flat/looks.ts';
import { readXml, type Said } from '../xml/read.ts';
import { isYes } from './read-workbook.ts';

/** How a cell looks, as far as a workbook says it too. */
export interface StyleRead {
  /** Code of its number's format; `General` where none is given. */
  readonly format: string;
  readonly style: NonNullable<CellDocument['style']>;
  /** Of a file of ours: what the cell is for. */
  readonly role?: NonNullable<CellDocument['role']>;
}

/** Formats that a file names by number alone (ECMA-376 part 1, 18.8.30). */
const BUILT_IN: ReadonlyMap<number, string> = new Map([
  [1, '0'],
  [2, '0.00'],
  [3, '#,##0'],
  [4, '#,##0.00'],
  [9, '0%'],
  [10, '0.00%'],
  [11, '0.00E+00'],
  [12, '# ?/?'],
  [13, '# ??/??'],
  [14, 'mm-dd-yy'],
  [15, 'd-mmm-yy'],
  [16, 'd-mmm'],
  [17, 'mmm-yy'],
  [18, 'h:mm AM/PM'],
  [19, 'h:mm:ss AM/PM'],
  [20, 'h:mm'],
  [21, 'h:mm:ss'],
  [22, 'm/d/yy h:mm'],
  [37, '#,##0 ;(#,##0)'],
  [38, '#,##0 ;[Red](#,##0)'],
  [39, '#,##0.00;(#,##0.00)'],
  [40, '#,##0.00;[Red](#,##0.00)'],
  [45, 'mm:ss'],
  [46, '[h]:mm:ss'],
  [47, 'mmss.0'],
  [48, '##0.0E+0'],
  [49, '@'],
]);

const GENERAL: StyleRead = { format: 'General', style: {} };
const ALIGN: Readonly<Record<string, 'start' | 'centre' | 'end'>> = {
  left: 'start',
  center: 'centre',
  right: 'end',
};

interface Font {
  bold: boolean;
  italic: boolean;
}

/** The styles of cells by their number. */
export function readStyles(
  bytes: Uint8Array | undefined,
  part: string,
): (number: number) => StyleRead {
  if (bytes === undefined) return () => GENERAL;
  const formats = new Map<number, string>();
  const fonts: Font[] = [];
  const found: {
    said: Said;
    style: { -readonly [key in keyof StyleRead['style']]: StyleRead['style'][key] };
  }[] = [];
  const roles = new Map<number, NonNullable<CellDocument['role']>>();
  const within: string[] = [];
  readXml(bytes, part, {
    open(name, said) {
      const parent = within.at(-1);
      within.push(name);
      if (name === 'numFmt' && parent === 'numFmts') {
        formats.set(Number(said.numFmtId), said.formatCode ?? 'General');
      } else if (name === 'font' && parent === 'fonts') fonts.push({ bold: false, italic: false });
      else if (parent === 'font' && within.at(-3) === 'fonts') {
        const font = fonts.at(-1);
        const isOn = said.val === undefined || isYes(said.val);
        if (font !== undefined && name === 'b') font.bold = isOn;
        if (font !== undefined && name === 'i') font.italic = isOn;
      } else if (name === 'xf' && parent === 'cellXfs') found.push({ said, style: {} });
      else if (name === 'alignment' && parent === 'xf' && within.at(-3) === 'cellXfs') {
        const one = found.at(-1);
        const align = Object.hasOwn(ALIGN, said.horizontal ?? '')
          ? ALIGN[said.horizontal ?? '']
          : undefined;
        if (one !== undefined && align !== undefined) one.style.align = align;
        if (one !== undefined && isYes(said.wrapText)) one.style.wrap = true;
      } else if (name === 'cellStyle') {
        const role = roleCalled(said.name ?? '');
        if (role !== undefined) roles.set(Number(said.xfId), role);
      }
    },
    close() {
      within.pop();
    },
  });
  const styles = found.map(({ said, style }): StyleRead => {
    const id = Number(said.numFmtId ?? 0);
    const font = fonts[Number(said.fontId ?? 0)];
    const role = roles.get(Number(said.xfId ?? 0));
    // What a role looks like anyway is not said again.
    const bold = font?.bold === true && role !== 'heading' ? { bold: true as const } : {};
    const italic = font?.italic === true && role !== 'note' ? { italic: true as const } : {};
    return {
      format: formats.get(id) ?? BUILT_IN.get(id) ?? 'General',
      style: { ...style, ...bold, ...italic },
      ...(role === undefined ? {} : { role }),
    };
  });
  return (number) => styles[number] ?? GENERAL;
}

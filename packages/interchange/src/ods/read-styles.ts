import type { CellDocument } from '@kerfbook/document';
import { roleCalled } from '../flat/looks.ts';
import type { FormatRead } from '../taking/format-code.ts';
import type { Said } from '../xml/read.ts';
import { FormatsRead } from './read-formats.ts';

/** How a cell looks, as far as a workbook says it too. */
export interface LookRead {
  readonly format: FormatRead;
  readonly style: NonNullable<CellDocument['style']>;
  readonly role?: NonNullable<CellDocument['role']>;
}

type Style = { -readonly [key in keyof LookRead['style']]: LookRead['style'][key] };

interface Raw {
  readonly said: Said;
  readonly style: Style;
  /** What it takes back of its parent: words of a usual weight. */
  readonly plain: { bold: boolean; italic: boolean };
  width?: number | undefined;
  isHidden?: boolean;
}

const GENERAL: LookRead = { format: { kind: 'general' }, style: {} };
const MOST = 100_000;
/** Styles that rest on one another. */
const DEEPEST = 20;

/** The styles of a file, of all its parts, by their names (OpenDocument 1.3 part 3, 16). */
export class StylesRead {
  readonly #formats = new FormatsRead();
  readonly #styles = new Map<string, Raw>();
  readonly #looks = new Map<string, LookRead>();
  #raw: Raw | undefined;

  /** An element of a part that may be one of a style. */
  open(name: string, said: Said): void {
    if (name === 'style:style') {
      const key = keyOf(said['style:family'], said['style:name']);
      this.#raw = { said, style: {}, plain: { bold: false, italic: false } };
      if (this.#styles.size < MOST) this.#styles.set(key, this.#raw);
      return;
    }
    if (this.#raw === undefined) this.#formats.open(name, said);
    else this.#property(this.#raw, name, said);
  }

  text(piece: string): void {
    if (this.#raw === undefined) this.#formats.text(piece);
  }

  close(name: string): void {
    if (name === 'style:style') this.#raw = undefined;
    else if (this.#raw === undefined) this.#formats.close(name);
  }

  #property(raw: Raw, name: string, said: Said): void {
    switch (name) {
      case 'style:text-properties':
        weigh(
          raw,
          'bold',
          said['fo:font-weight'],
          (word) => word === 'bold' || Number(word) >= 600,
        );
        weigh(raw, 'italic', said['fo:font-style'], (word) => word !== 'normal');
        break;
      case 'style:paragraph-properties': {
        const align = ALIGN.get(said['fo:text-align'] ?? '');
        if (align !== undefined) raw.style.align = align;
        break;
      }
      case 'style:table-cell-properties':
        if (said['fo:wrap-option'] === 'wrap') raw.style.wrap = true;
        break;
      case 'style:table-column-properties':
        raw.width = pixels(said['style:column-width']);
        break;
      case 'style:table-properties':
        raw.isHidden = said['table:display'] === 'false';
        break;
      default:
    }
  }

  /** What a style of cells says, with what it rests on. */
  cell(name: string | undefined): LookRead {
    if (name === undefined) return GENERAL;
    let look = this.#looks.get(name);
    if (look === undefined) {
      look = this.#cell(name);
      this.#looks.set(name, look);
    }
    return look;
  }

  #cell(name: string): LookRead {
    let style: LookRead['style'] = {};
    let role: LookRead['role'];
    let format: string | undefined;
    const plain = { bold: false, italic: false };
    let next: string | undefined = name;
    for (let depth = 0; next !== undefined && depth < DEEPEST; depth += 1) {
      const raw = this.#styles.get(keyOf('table-cell', next));
      if (raw === undefined) break;
      role ??= roleCalled(raw.said['style:display-name'] ?? '');
      format ??= raw.said['style:data-style-name'];
      // What a role looks like anyway is not said again.
      const own: Style = role === undefined ? { ...raw.style } : {};
      if (plain.bold) delete own.bold;
      if (plain.italic) delete own.italic;
      style = { ...own, ...style };
      plain.bold ||= raw.plain.bold;
      plain.italic ||= raw.plain.italic;
      next = raw.said['style:parent-style-name'];
    }
    if (role === 'heading') style = without(style, 'bold');
    if (role === 'note') style = without(style, 'italic');
    return {
      format: format === undefined ? GENERAL.format : this.#formats.of(format),
      style,
      ...(role === undefined ? {} : { role }),
    };
  }

  /** A column's width in px; undefined where none is said. */
  width(name: string | undefined): number | undefined {
    return this.#styles.get(keyOf('table-column', name))?.width;
  }

  isHiddenTable(name: string | undefined): boolean {
    return this.#styles.get(keyOf('table', name))?.isHidden ?? false;
  }
}

const keyOf = (family: string | undefined, name: string | undefined): string =>
  `${family ?? ''} ${name ?? ''}`;

function without(style: LookRead['style'], key: 'bold' | 'italic'): LookRead['style'] {
  const { [key]: _, ...rest } = style;
  return rest;
}

function weigh(
  raw: Raw,
  key: 'bold' | 'italic',
  word: string | undefined,
  isOn: (word: string) => boolean,
): void {
  if (word === undefined) return;
  if (isOn(word)) raw.style[key] = true;
  else raw.plain[key] = true;
}

const ALIGN: ReadonlyMap<string, 'start' | 'centre' | 'end'> = new Map([
  ['start', 'start'],
  ['left', 'start'],
  ['center', 'centre'],
  ['end', 'end'],
  ['right', 'end'],
]);

const PX: Readonly<Record<string, number>> = {
  in: 96,
  cm: 96 / 2.54,
  mm: 96 / 25.4,
  pt: 96 / 72,
  pc: 16,
  px: 1,
};

/** A length in the units of CSS in px, to a whole one; undefined where it is none. */
function pixels(text: string | undefined): number | undefined {
  const found = /^(\d+(?:\.\d+)?)(in|cm|mm|pt|pc|px)$/.exec(text?.trim() ?? '');
  const factor = PX[found?.[2] ?? ''];
  const size = factor === undefined ? undefined : Math.round(Number(found?.[1]) * factor);
  return size === undefined || size < 16 ? undefined : Math.min(2000, size);
}

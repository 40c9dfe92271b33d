import type { Look } from '../flat/flat-book.ts';
import { COLORS, FONT, GROUNDS, lookKey, MARKED, ROLE_NAMES, ROLES } from '../flat/looks.ts';
import { DECLARATION, element } from '../xml/write.ts';

const SPREADSHEET = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';

/** Colours say how much shines through first: nothing. */
const opaque = (color: string): string => `FF${color}`;

/** Formats of a file's own begin here (ECMA-376 part 1, 18.8.30). */
const FIRST_OWN_FORMAT = 164;
const TEXT_FORMAT = 49;

/** Words of several lines stand beside single ones: all begin at the top of their row. */
const TOP = element('alignment', { vertical: 'top' });

/** A list in which each text stands once, known by its place. */
class Once {
  readonly #places = new Map<string, number>();

  constructor(...first: readonly string[]) {
    for (const text of first) this.of(text);
  }

  of(text: string): number {
    const place = this.#places.get(text) ?? this.#places.size;
    this.#places.set(text, place);
    return place;
  }

  get texts(): readonly string[] {
    return [...this.#places.keys()];
  }
}

const font = (about: { bold?: boolean; italic?: boolean; size?: number; color?: string }): string =>
  element(
    'font',
    {},
    `${about.bold === true ? '<b/>' : ''}${about.italic === true ? '<i/>' : ''}${element('sz', { val: about.size ?? FONT.size })}${element('color', { rgb: opaque(about.color ?? COLORS.ink) })}${element('name', { val: FONT.name })}`,
  );
const fill = (color: string): string =>
  element(
    'fill',
    {},
    element(
      'patternFill',
      { patternType: 'solid' },
      `${element('fgColor', { rgb: opaque(color) })}<bgColor indexed="64"/>`,
    ),
  );
/** Something was typed over its formula: a hatched ground, as its edge is in the app. */
const HATCHED = element(
  'fill',
  {},
  element(
    'patternFill',
    { patternType: 'lightUp' },
    `${element('fgColor', { rgb: opaque(COLORS.rule) })}<bgColor indexed="64"/>`,
  ),
);
const NO_BORDER = '<border><left/><right/><top/><bottom/><diagonal/></border>';
const DOTTED_UNDER = `<border><left/><right/><top/>${element('bottom', { style: 'dotted' }, element('color', { rgb: opaque(COLORS.inputEdge) }))}<diagonal/></border>`;

/** The styles of a file: each way a cell may look once, by its number. */
export class Styles {
  readonly #fonts = new Once(font({}));
  // The first two grounds are fixed by the format.
  readonly #fills = new Once(
    '<fill><patternFill patternType="none"/></fill>',
    '<fill><patternFill patternType="gray125"/></fill>',
  );
  readonly #borders = new Once(NO_BORDER);
  readonly #formats = new Once();
  readonly #cells = new Once();

  constructor() {
    this.of({}, undefined);
  }

  readonly #numbers = new Map<string, number>();

  /** The number of a look with a number's format. */
  of(look: Look, format: string | undefined): number {
    const key = lookKey(look, format);
    let number = this.#numbers.get(key);
    if (number === undefined) {
      number = this.#of(look, format);
      this.#numbers.set(key, number);
    }
    return number;
  }

  #of(look: Look, format: string | undefined): number {
    const { role, style, isOverridden } = look;
    const fontId = this.#fonts.of(
      font({
        bold: style?.bold === true || role === 'heading',
        italic: style?.italic === true || role === 'note',
        ...(role === 'heading' ? { size: FONT.heading } : {}),
        ...(role === 'note' ? { color: COLORS.quiet } : {}),
      }),
    );
    const ground = style?.background === undefined ? undefined : GROUNDS[style.background];
    const fillId =
      isOverridden === true
        ? this.#fills.of(HATCHED)
        : ground !== undefined
          ? this.#fills.of(fill(ground))
          : role === 'input'
            ? this.#fills.of(fill(COLORS.input))
            : 0;
    const borderId = role === 'input' ? this.#borders.of(DOTTED_UNDER) : 0;
    const formatId = this.#formatId(format);
    const align = style?.align;
    const horizontal =
      align === 'start'
        ? 'left'
        : align === 'end'
          ? 'right'
          : align === 'centre'
            ? 'center'
            : undefined;
    const alignment = element('alignment', {
      horizontal,
      vertical: 'top',
      wrapText: style?.wrap === true ? true : undefined,
    });
    return this.#cells.of(
      element(
        'xf',
        {
          numFmtId: formatId,
          fontId,
          fillId,
          borderId,
          xfId: role === undefined ? 0 : ROLES.indexOf(role) + 1,
          applyNumberFormat: formatId !== 0 || undefined,
          applyFont: true,
          applyFill: true,
          applyBorder: true,
          applyAlignment: true,
          applyProtection: role === 'input' || undefined,
        },
        `${alignment}${role === 'input' ? element('protection', { locked: false }) : ''}`,
      ),
    );
  }

  #formatId(format: string | undefined): number {
    if (format === undefined) return 0;
    if (format === '@') return TEXT_FORMAT;
    return FIRST_OWN_FORMAT + this.#formats.of(format);
  }

  /** The part `styles.xml`. */
  text(): string {
    const named = ROLES.map((role) => ({ role, xf: this.#base(role) }));
    const formats = this.#formats.texts.map((code, at) =>
      element('numFmt', { numFmtId: FIRST_OWN_FORMAT + at, formatCode: code }),
    );
    const list = (name: string, items: readonly string[]): string =>
      items.length === 0 ? '' : element(name, { count: items.length }, items.join(''));
    return `${DECLARATION}${element(
      'styleSheet',
      { xmlns: SPREADSHEET },
      list('numFmts', formats) +
        list('fonts', this.#fonts.texts) +
        list('fills', this.#fills.texts) +
        list('borders', this.#borders.texts) +
        list('cellStyleXfs', [
          element('xf', { numFmtId: 0, fontId: 0, fillId: 0, borderId: 0 }, TOP),
          ...named.map(({ xf }) => xf),
        ]) +
        list('cellXfs', this.#cells.texts) +
        list('cellStyles', [
          element('cellStyle', { name: 'Normal', xfId: 0, builtinId: 0 }),
          ...named.map(({ role }, at) =>
            element('cellStyle', { name: ROLE_NAMES[role], xfId: at + 1 }),
          ),
        ]) +
        list('dxfs', [marked(MARKED.care), marked(MARKED.stop)]),
    )}`;
  }

  /** What cells of a role have in common. */
  #base(role: (typeof ROLES)[number]): string {
    const number = this.of({ role }, undefined);
    const text = this.#cells.texts[number] ?? '';
    return text.replace(/ xfId="\d+"/, '');
  }
}

/** How cells look whose check does not hold: the number of the style for each severity. */
export const MARK_STYLE = { care: 0, stop: 1 } as const;

const marked = ({ ground, ink }: { readonly ground: string; readonly ink: string }): string =>
  element(
    'dxf',
    {},
    `${element('font', {}, `<b/>${element('color', { rgb: opaque(ink) })}`)}${element('fill', {}, element('patternFill', { patternType: 'solid' }, `${element('fgColor', { rgb: opaque(ground) })}${element('bgColor', { rgb: opaque(ground) })}`))}`,
  );

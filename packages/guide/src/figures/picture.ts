import { escapeText, textWidth } from '@kerfbook/drawing';
import { asWritten, type Speak, type SpokenWords } from './speak.ts';

/**
 * A figure is so many units wide, and its letters so many high: set 104 mm wide on paper they are 9 pt, on a phone of
 * 360 px they are 10 px.
 */
export const FIGURE = {
  wide: 360,
  text: 11,
  /** From one line of writing to the next. */
  line: 15,
  edge: 8,
  /** What stays free between two writings side by side. */
  gap: 10,
} as const;

/** Rounded to a hundredth of a unit; never `-0`. */
export const n = (value: number): string => String(Math.round(value * 100) / 100 || 0);

/** How much wider than the mean a letter is, where it is: capitals and the widest small ones. */
const WIDE_LETTER = /[\p{Lu}mw%@—…]/gu;
const FULL_WIDTH =
  /[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Hangul}\p{Emoji_Presentation}]/gu;

/** Estimated width of a writing in units, on the safe side. */
export const widthOf = (words: string, size: number = FIGURE.text): number =>
  textWidth(words, size) +
  0.2 * size * (words.match(WIDE_LETTER)?.length ?? 0) +
  0.5 * size * (words.match(FULL_WIDTH)?.length ?? 0);

/** Words in lines no wider than there is room for; a word that is wider by itself is broken. */
export function wrapped(
  words: string,
  room: number,
  size: number = FIGURE.text,
): readonly string[] {
  const lines: string[] = [];
  let line = '';
  // A number stays with its fraction and its unit.
  const whole = words.replaceAll(/(\d) (?=\d+\/\d|(?:in|ft|mm|cm|m|lb|kg)\b)/g, '$1\u00a0');
  for (const word of whole.split(/[^\S\u00a0]+/).filter((one) => one !== '')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (widthOf(longer, size) <= room) {
      line = longer;
      continue;
    }
    if (line !== '') lines.push(line);
    line = '';
    for (const letter of word) {
      if (line !== '' && widthOf(line + letter, size) > room) {
        lines.push(line);
        line = '';
      }
      line += letter;
    }
  }
  return (line === '' ? lines : [...lines, line]).map((one) => one.replaceAll('\u00a0', ' '));
}

/** Which end of a writing, or its middle, stands at its place. */
export type Anchor = 'start' | 'middle' | 'end';

/** A place in a figure: x to the right, y down. */
export type Spot = readonly [x: number, y: number];

/** What is put into a figure, from back to front; y counts down. */
export class Picture {
  /** Puts its writings into the language of the plan. */
  readonly speak: Speak;
  readonly #parts: string[] = [];
  #bottom = 0;

  constructor(speak: Speak = asWritten) {
    this.speak = speak;
  }

  /** What is in it so far. */
  get parts(): readonly string[] {
    return this.#parts;
  }

  /** As far down as anything reaches. */
  get bottom(): number {
    return this.#bottom;
  }

  /** Makes sure that the figure reaches so far down. */
  reach(y: number): void {
    this.#bottom = Math.max(this.#bottom, y);
  }

  /** SVG as it is; whoever adds it says how far down it reaches. */
  add(svg: string, bottom = 0): void {
    if (svg === '') return;
    this.#parts.push(svg);
    this.reach(bottom);
  }

  /** Lines of one kind. */
  path(kind: string, d: string): void {
    if (d !== '') {
      this.#parts.push(
        `<path class="${kind}" fill="none" stroke="currentColor" vector-effect="non-scaling-stroke" d="${d}"/>`,
      );
    }
  }

  /** A line of writing, on its baseline, put into the language of the plan. */
  text(x: number, y: number, words: string, anchor: Anchor = 'start', kind = 'kb-label'): void {
    this.write([x, y], this.speak(words), anchor, kind);
  }

  /** The same of words that are in the language they are to be in. */
  write([x, y]: Spot, { words, lang }: SpokenWords, anchor: Anchor, kind = 'kb-label'): void {
    const at = anchor === 'start' ? '' : ` text-anchor="${anchor}"`;
    const of = lang === undefined ? '' : ` lang="${lang}"`;
    this.#parts.push(
      `<text class="${kind}" x="${n(x)}" y="${n(y)}" font-size="${FIGURE.text}" fill="currentColor"${at}${of}>${escapeText(words)}</text>`,
    );
    this.reach(y + FIGURE.text * 0.3);
  }

  /** Lines of writing beneath all that is there, each of them wrapped. */
  beneath(lines: readonly string[], kind = 'kb-said'): void {
    const room = FIGURE.wide - 2 * FIGURE.edge;
    for (const line of lines) {
      const spoken = this.speak(line);
      for (const [i, words] of wrapped(spoken.words, room).entries()) {
        const y = this.#bottom + (i === 0 ? FIGURE.line : FIGURE.line * 0.85);
        this.write([FIGURE.edge, y], { ...spoken, words }, 'start', kind);
      }
    }
  }

  /** The whole as SVG. @param says its title */
  svg(says: string, print = false): string {
    const high = this.#bottom + FIGURE.edge;
    return [
      `<svg xmlns="http://www.w3.org/2000/svg" class="kb-drawing kb-figure${print ? ' kb-print' : ''}" role="img" viewBox="0 0 ${FIGURE.wide} ${n(high)}">`,
      `<title>${escapeText(says)}</title>`,
      ...this.#parts,
      '</svg>',
    ].join('\n');
  }
}

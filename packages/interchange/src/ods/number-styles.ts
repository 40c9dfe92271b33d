import { element, escaped } from '../xml/write.ts';

/** One section of a format's code. */
interface Section {
  /** `value()<0.25`, where it is for some numbers only. */
  readonly when?: string;
  readonly code: string;
}

/** Formats of numbers as styles (OpenDocument 1.3 part 3, 16.29), each once. */
export class NumberStyles {
  readonly #names = new Map<string, string>();
  readonly #written: string[] = [];

  /** The style's name for a code that {@link numberFormat} writes. */
  of(code: string): string {
    const known = this.#names.get(code);
    if (known !== undefined) return known;
    const name = `N${this.#names.size + 1}`;
    this.#names.set(code, name);
    const sections = sectionsOf(code);
    const plain = sections.find(({ when }) => when === undefined)?.code ?? 'General';
    const maps = sections.flatMap(({ when, code: inner }, at) => {
      if (when === undefined) return [];
      const apart = `${name}P${at}`;
      this.#written.push(styleOf(inner, apart));
      return element('style:map', { 'style:condition': when, 'style:apply-style-name': apart });
    });
    this.#written.push(styleOf(plain, name, maps.join('')));
    return name;
  }

  /** All of them, as they stand among a file's automatic styles. */
  text(): string {
    return this.#written.join('');
  }
}

function sectionsOf(code: string): readonly Section[] {
  return sections(code).map((one): Section => {
    const found = /^\[([<>=]+-?[\d.]+)\](.*)$/s.exec(one);
    return found === null ? { code: one } : { when: `value()${found[1]}`, code: found[2] ?? '' };
  });
}

/** A semicolon within quotes is one of its words. */
function sections(code: string): readonly string[] {
  const found = [''];
  let isQuoted = false;
  for (const letter of code) {
    if (letter === '"') isQuoted = !isQuoted;
    if (letter === ';' && !isQuoted) found.push('');
    else found[found.length - 1] += letter;
  }
  return found;
}

const PIECES =
  /"([^"]*(?:""[^"]*)*)"|(# \?\?\/(\?\?|\d+))|(#,##0|0)(?:\.(0+))?|(General)|(yyyy|mm|dd)|(@)|([- ])/gy;
const SIGNS: readonly string[] = ['$', '€', '£', '¥'];

function styleOf(code: string, name: string, maps = ''): string {
  let kind = 'number:number-style';
  let inside = '';
  PIECES.lastIndex = 0;
  let end = 0;
  for (let found = PIECES.exec(code); found !== null; found = PIECES.exec(code)) {
    end = PIECES.lastIndex;
    const [, quoted, fraction, under, whole, places = '', general, day, words, plain] = found;
    if (quoted !== undefined) {
      const text = quoted.replaceAll('""', '"');
      if (SIGNS.includes(text) || /^\s*[A-Z]{3}\s*$/.test(text)) {
        kind = 'number:currency-style';
        inside += element('number:currency-symbol', {}, escaped(text));
      } else inside += element('number:text', {}, escaped(text));
    } else if (fraction !== undefined) {
      inside += element('number:fraction', {
        'number:min-integer-digits': 0,
        'number:min-numerator-digits': 2,
        ...(under === '??'
          ? { 'number:min-denominator-digits': 2 }
          : { 'number:min-denominator-digits': under?.length, 'number:denominator-value': under }),
      });
    } else if (whole !== undefined) {
      inside += element('number:number', {
        'number:decimal-places': places.length,
        'number:min-decimal-places': places.length,
        'number:min-integer-digits': 1,
        ...(whole === '0' ? {} : { 'number:grouping': 'true' }),
      });
    } else if (general !== undefined) {
      inside += element('number:number', { 'number:min-integer-digits': 1 });
    } else if (day !== undefined) {
      kind = 'number:date-style';
      inside += element(DAY[day] ?? 'number:day', { 'number:style': 'long' });
    } else if (words !== undefined) {
      kind = 'number:text-style';
      inside += '<number:text-content/>';
    } else inside += element('number:text', {}, escaped(plain ?? ''));
  }
  if (end !== code.length) throw new TypeError(`the format ${code} has no style`);
  return element(kind, { 'style:name': name }, inside + maps);
}

const DAY: Readonly<Record<string, string>> = {
  yyyy: 'number:year',
  mm: 'number:month',
  dd: 'number:day',
};

import { cellText, DECLARATION, element } from '../xml/write.ts';

const SPREADSHEET = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';

/** Words of cells, each once, known by its place. */
export class SharedStrings {
  readonly #places = new Map<string, number>();
  #count = 0;

  /** The place of a text. */
  of(text: string): number {
    this.#count += 1;
    const place = this.#places.get(text) ?? this.#places.size;
    this.#places.set(text, place);
    return place;
  }

  /** The part `sharedStrings.xml`. */
  text(): string {
    const items = [...this.#places.keys()].map((text) => element('si', {}, textElement(text)));
    return `${DECLARATION}${element('sst', { xmlns: SPREADSHEET, count: this.#count, uniqueCount: items.length }, items.join(''))}`;
  }
}

/** Spaces at the ends of words are kept. */
export const textElement = (text: string): string =>
  `<t xml:space="preserve">${cellText(text)}</t>`;

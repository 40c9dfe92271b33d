import { currencyOf, type FormatRead } from '../taking/format-code.ts';
import type { Said } from '../xml/read.ts';

const KINDS: ReadonlyMap<string, FormatRead['kind']> = new Map([
  ['number:number-style', 'number'],
  ['number:currency-style', 'money'],
  ['number:percentage-style', 'percent'],
  ['number:date-style', 'date'],
  ['number:time-style', 'time'],
  ['number:boolean-style', 'general'],
  ['number:text-style', 'text'],
]);

interface Raw {
  readonly kind: FormatRead['kind'];
  decimals?: number;
  denominator?: number;
  isFraction: boolean;
  isPlain: boolean;
  words: string;
  currency: string;
  /** The style for numbers from 0 on, where this one is for those below. */
  above?: string;
}

const MOST = 20_000;
const LONGEST = 100;

/** Formats of numbers, dates and times (OpenDocument 1.3 part 3, 16.29), by the names of their styles. */
export class FormatsRead {
  readonly #found = new Map<string, Raw>();
  #raw: Raw | undefined;
  #into: 'words' | 'currency' | undefined;

  open(name: string, said: Said): void {
    const kind = KINDS.get(name);
    if (kind !== undefined) {
      this.#raw = { kind, isFraction: false, isPlain: false, words: '', currency: '' };
      if (this.#found.size < MOST) this.#found.set(said['style:name'] ?? '', this.#raw);
      return;
    }
    if (this.#raw === undefined) return;
    this.#piece(this.#raw, name, said);
  }

  #piece(raw: Raw, name: string, said: Said): void {
    switch (name) {
      case 'number:number': {
        const places = Number(said['number:decimal-places'] ?? Number.NaN);
        raw.isPlain = said['number:decimal-places'] === undefined;
        if (Number.isInteger(places) && places >= 0) raw.decimals = Math.min(10, places);
        break;
      }
      case 'number:fraction': {
        raw.isFraction = true;
        const under = Number(said['number:denominator-value'] ?? Number.NaN);
        if (under >= 2 && under <= 128 && Number.isInteger(under)) raw.denominator = under;
        break;
      }
      case 'number:text':
        this.#into = 'words';
        break;
      case 'number:currency-symbol':
        this.#into = 'currency';
        break;
      case 'style:map':
        if (/^value\(\)>=?0$/.test((said['style:condition'] ?? '').replaceAll(/\s/g, '')))
          raw.above = said['style:apply-style-name'] ?? '';
        break;
      default:
    }
  }

  text(piece: string): void {
    const into = this.#into;
    if (this.#raw === undefined || into === undefined || this.#raw[into].length > LONGEST) return;
    this.#raw[into] += piece;
  }

  close(name: string): void {
    this.#into = undefined;
    if (KINDS.has(name)) this.#raw = undefined;
  }

  /** What a style says of its numbers; that of numbers above nothing, where there are several. */
  of(name: string): FormatRead {
    const first = this.#found.get(name);
    if (first === undefined) return { kind: 'general' };
    const raw = (first.above === undefined ? undefined : this.#found.get(first.above)) ?? first;
    const words = raw.words.trim();
    const beside = words === '' ? {} : { words };
    if (raw.isFraction) {
      const { denominator } = raw;
      return {
        kind: 'fraction',
        ...(denominator === undefined ? {} : { denominator }),
        ...beside,
      };
    }
    const decimals = raw.decimals ?? 0;
    // Files write some money as numbers with its sign beside them.
    const currency = currencyOf(raw.currency.trim()) ?? currencyOf(words);
    switch (raw.kind) {
      case 'number':
        if (currency !== undefined) return { kind: 'money', decimals, currency };
        return raw.isPlain && words === ''
          ? { kind: 'general' }
          : { kind: 'number', decimals, ...beside };
      case 'money':
        return currency === undefined
          ? { kind: 'number', decimals, ...beside }
          : { kind: 'money', decimals, currency, ...beside };
      case 'percent':
        return { kind: 'percent', decimals };
      default:
        return { kind: raw.kind };
    }
  }
}

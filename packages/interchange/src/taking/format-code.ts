import type { Show } from '@kerfbook/document';

/** What a number's format says of the number. */
export interface FormatRead {
  readonly kind: 'general' | 'number' | 'percent' | 'fraction' | 'date' | 'time' | 'money' | 'text';
  /** Of a fraction in fixed steps. */
  readonly denominator?: number;
  readonly decimals?: number;
  /** Words beside the number: `mm`, `bd ft`. */
  readonly words?: string;
  /** ISO 4217 code of its money, where the sign tells it. */
  readonly currency?: string;
}

const SIGNS: ReadonlyMap<string, string> = new Map([
  ['$', 'USD'],
  ['€', 'EUR'],
  ['£', 'GBP'],
  ['¥', 'JPY'],
]);
const QUOTED = /"([^"]*)"|\\(.)|_.|\*./g;
const LONGEST = 1_000;

/** Reads the first section of a format (ECMA-376 part 1, 18.8.31): that of numbers above nothing. */
export function readFormat(code: string): FormatRead {
  if (code === 'General' || code === '' || code.length > LONGEST) return { kind: 'general' };
  if (code === '@') return { kind: 'text' };
  // A section under a condition is for small numbers only; the one after it is what most are shown by.
  const sections = code.split(';');
  const first =
    /^\[[<>=]/.test(sections[0] ?? '') && sections.length > 1 ? sections[1] : sections[0];
  const words: string[] = [];
  let currency: string | undefined;
  const plain = (first ?? '')
    .replaceAll(/\[\$([^\]-]*)(?:-[^\]]*)?\]/g, (_, sign: string) => {
      currency ??= currencyOf(sign);
      return '';
    })
    .replaceAll(QUOTED, (_, quoted: string | undefined, escaped: string | undefined) => {
      const text = quoted ?? escaped ?? '';
      const found = currencyOf(text.trim());
      if (found !== undefined) currency ??= found;
      else if (text.trim() !== '') words.push(text.trim());
      return '';
    });
  const isTime = /\[[hms]+\]/i.test(plain);
  const bare = plain.replaceAll(/\[[^\]]*\]/g, '');
  for (const [sign, code3] of SIGNS) if (bare.includes(sign)) currency ??= code3;
  const letters = bare.replaceAll(/General/gi, '').replaceAll(/AM\/PM|A\/P/gi, 'h');
  if (/[yd]/i.test(letters)) return { kind: 'date' };
  if (isTime || /[hs]/i.test(letters)) return { kind: 'time' };
  if (/^[\s/-]*m+[\s/-]*$/i.test(letters)) return { kind: 'date' };
  const beside = words.length === 0 ? {} : { words: words.join(' ') };
  const fraction = /[#?0]\s*\/\s*([?#0]+|\d+)/.exec(bare);
  if (fraction !== null) {
    const under = Number(fraction[1]);
    return {
      kind: 'fraction',
      ...(under >= 2 && under <= 128 ? { denominator: under } : {}),
      ...beside,
    };
  }
  const decimals = /[0#?]\.([0#?]+)/.exec(bare)?.[1]?.length ?? 0;
  if (bare.includes('%')) return { kind: 'percent', decimals };
  if (currency !== undefined) return { kind: 'money', decimals, currency, ...beside };
  return { kind: 'number', decimals: Math.min(decimals, 10), ...beside };
}

/** The ISO 4217 code of a sign of money; undefined where it is none. */
export function currencyOf(sign: string): string | undefined {
  const found = SIGNS.get(sign);
  if (found !== undefined) return found;
  return /^[A-Z]{3}$/.test(sign) ? sign : undefined;
}

/** How a cell of a workbook shows such a number; nothing where it is shown as usual. */
export function showOf({ kind, denominator, decimals }: FormatRead): Show | undefined {
  if (kind === 'fraction') {
    return { as: 'fraction', ...(denominator === undefined ? {} : { denominator }) };
  }
  return kind === 'number' && decimals !== undefined ? { as: 'decimal', decimals } : undefined;
}

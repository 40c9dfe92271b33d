import { MM_PER_INCH } from '@kerfbook/wood';
import { nameKey } from '../formula/names.ts';

/** A named cell in the sentence of a check: `{apron_thickness}`. */
const NAMED = /\{([^{}]+)\}/g;

/** A length that is said as it is, such as a limit of the check's formula: `{1/4 in}`, `{1 1/2 in}`, `{609.6 mm}`. */
const LENGTH = /^(?:(\d+(?:\.\d+)?)(?: (?=\d+\/)| ?(?=in|mm)))?(?:(\d+)\/([1-9]\d*) ?)?(in|mm)$/;

const inBraces = (says: string): readonly string[] =>
  [...says.matchAll(NAMED)].map(([, word = '']) => word.trim());

/** The names of cells that a check's sentence shows, in their order. */
export function namesInSentence(says: string): readonly string[] {
  return inBraces(says).filter((word) => lengthSaid(word) === undefined);
}

/** The lengths that a check's sentence says in the units of its workbook, as they stand in its braces, in their order. */
export function lengthsInSentence(says: string): readonly string[] {
  return inBraces(says).filter((word) => lengthSaid(word) !== undefined);
}

/**
 * A length as it stands in the braces of a sentence, in mm (1 in is 25.4 mm: NIST SP 811). No name begins with a digit, so
 * none is a length. Undefined for whatever else stands there.
 */
export function lengthSaid(word: string): number | undefined {
  const [, whole, over, under, unit] = LENGTH.exec(word) ?? [];
  if (unit === undefined || (whole === undefined && over === undefined)) return undefined;
  const number = Number(whole ?? 0) + (over === undefined ? 0 : Number(over) / Number(under));
  return unit === 'in' ? number * MM_PER_INCH : number;
}

/** A check's sentence with something in place of what stands in braces; what comes to nothing stands as it is. */
export function filledSentence(says: string, shown: (name: string) => string | undefined): string {
  return says.replaceAll(NAMED, (whole, word: string) => shown(word.trim()) ?? whole);
}

/** A check's sentence with another name for a cell. */
export function renamedSentence(says: string, from: string, to: string): string {
  return filledSentence(says, (name) => (nameKey(name) === nameKey(from) ? `{${to}}` : undefined));
}

import { nameKey } from '../formula/names.ts';

/** A named cell in the sentence of a check: `{apron_thickness}`. */
const NAMED = /\{([^{}]+)\}/g;

/** The names of cells that a check's sentence shows, in their order. */
export function namesInSentence(says: string): readonly string[] {
  return [...says.matchAll(NAMED)].map(([, word = '']) => word.trim());
}

/** A check's sentence with something in place of its names; those that come to nothing stand as they are. */
export function filledSentence(says: string, shown: (name: string) => string | undefined): string {
  return says.replaceAll(NAMED, (whole, word: string) => shown(word.trim()) ?? whole);
}

/** A check's sentence with another name for a cell. */
export function renamedSentence(says: string, from: string, to: string): string {
  return filledSentence(says, (name) => (nameKey(name) === nameKey(from) ? `{${to}}` : undefined));
}

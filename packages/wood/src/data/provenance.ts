/** Where a wood grows, as the published tables divide them. */
export type WoodClass = 'hardwood' | 'softwood' | 'imported';

/**
 * How a value was obtained.
 * `read`: seen in a copy of the publication;
 * `memory`: recalled, not seen;
 * `seen older`: recalled, and seen in a copy of an older edition's table;
 * `computed`: worked out here from other published values;
 * `group`: the published value of the group the species is sold in;
 * `own`: given by the maker in a table of the workbook;
 * `practice`: what the trade does, without a source.
 */
export type How = 'read' | 'memory' | 'seen older' | 'computed' | 'group' | 'own' | 'practice';

/** The same, one letter a value, in the order of a row's values: `r`, `m` or `s`. */
export type Letters = string;

const HOW_OF: Readonly<Record<string, How>> = { r: 'read', m: 'memory', s: 'seen older' };

/** Reads the letter at a place of a row's code. */
export function howAt(letters: Letters, place: number): How {
  return HOW_OF[letters[place] ?? ''] ?? 'memory';
}

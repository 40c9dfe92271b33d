import type { Formula } from '@kerfbook/document';

/**
 * The function whose result a formula is: `=SEATS(…)` gives SEATS, `=SEATS(…)+1` none.
 * In capitals; `undefined` where the formula is more than one call.
 */
export function outermostFunction({ root }: Formula): string | undefined {
  return root?.kind === 'call' ? root.name.toUpperCase() : undefined;
}

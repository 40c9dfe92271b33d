/**
 * The function whose result a formula is: `=SEATS(…)` gives SEATS, `=SEATS(…)+1` none.
 * In capitals; `undefined` where the formula is more than one call.
 */
export function outermostFunction(formula: string): string | undefined {
  const opening = /^=\s*([\p{L}_][\p{L}\p{N}_.]*)\s*\(/u.exec(formula);
  if (opening === null) return undefined;
  let depth = 1;
  let inText = false;
  for (let at = opening[0].length; at < formula.length; at += 1) {
    const letter = formula[at];
    if (letter === '"') inText = !inText;
    if (inText) continue;
    if (letter === '(') depth += 1;
    if (letter === ')') depth -= 1;
    if (depth === 0) {
      const ends = formula.slice(at + 1).trim() === '';
      return ends ? opening[1]?.toUpperCase() : undefined;
    }
  }
  return undefined;
}

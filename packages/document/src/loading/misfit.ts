import type * as z from 'zod/mini';
import { type RefusedResult, refuse } from '../faults/catalogue.ts';
import { placeInWords, troubleInWords } from '../format/trouble.ts';

/** Why something cannot be kept as it came: where (from the workbook down, or from `where`), and what is wrong there, as a person says it. */
export function misfit(where: string, { issues: [issue] }: z.core.$ZodError): RefusedResult {
  if (issue === undefined) return refuse('W12', where, 'it does not fit');
  const places = [where, ...(issue.path.length === 0 ? [] : [placeInWords(issue.path)])];
  return refuse('W12', places.filter((one) => one !== '').join(', '), troubleInWords(issue));
}

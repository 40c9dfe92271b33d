import { readWritten } from './references.ts';
import { prefix, shiftedCorner } from './shift.ts';

const FORMS = [
  { rowFixed: false, columnFixed: false },
  { rowFixed: true, columnFixed: true },
  { rowFixed: true, columnFixed: false },
  { rowFixed: false, columnFixed: true },
] as const;

/**
 * A reference in its next form (G29): `B3` → `$B$3` → `B$3` → `$B3` → `B3`. Both corners of a range
 * take the form that follows the first one's; what is no reference stays.
 */
export function nextForm(reference: string): string {
  const written = readWritten(reference);
  if (written === undefined) return reference;
  const { sheet, from, to } = written;
  const now = FORMS.findIndex(
    (form) =>
      (from.row === undefined || form.rowFixed === from.rowFixed) &&
      (from.column === undefined || form.columnFixed === from.columnFixed),
  );
  const form = FORMS[(now + 1) % FORMS.length];
  const texts = [from, to].flatMap((corner) =>
    corner === undefined ? [] : [shiftedCorner({ ...corner, ...form }, 0, 0)],
  );
  return `${prefix(sheet)}${texts.join(':')}`;
}

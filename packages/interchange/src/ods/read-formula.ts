import { functionOf } from './open-formula.ts';

/** What a formula says of where it comes from, before its `=`: `of:`, `oooc:`, `msoxl:`. */
const KIND = /^([A-Za-z][\w.-]*):(?==)/;
const PIECES =
  /("(?:[^"]|"")*")|(\[(?:'(?:[^']|'')*'|[^\]'])*\])|([A-Za-z_\p{L}][\w.\p{L}]*)(?=\s*\()|([{}])|([;|~])|([^"[{};|~A-Za-z_\p{L}]+|[A-Za-z_\p{L}][\w.\p{L}]*|.)/gsuy;

/**
 * A formula of a file as others write it, without its `=`: `of:=SUM([.B1:.C2];1)` is `SUM(B1:C2,1)`. What has no such
 * form stays as it is, and is refused where formulas are read.
 */
export function plainFormula(text: string): string {
  const kind = KIND.exec(text)?.[1]?.toLowerCase();
  const formula = text.slice(kind === undefined ? 0 : kind.length + 1).replace(/^=/, '');
  // Formulas of other kinds are written that way already.
  if (kind === 'msoxl') return formula;
  let plain = '';
  let tables = 0;
  for (const found of formula.matchAll(PIECES)) {
    const [whole, quoted, reference, name, brace, between] = found;
    if (quoted !== undefined) plain += quoted;
    else if (reference !== undefined) plain += plainReference(reference.slice(1, -1));
    else if (name !== undefined) plain += functionOf(name);
    else if (brace !== undefined) {
      tables += brace === '{' ? 1 : -1;
      plain += brace;
    } else if (between !== undefined) plain += joint(between, tables > 0);
    else plain += whole;
  }
  return plain;
}

/** Between cells of a constant table stands a semicolon there, between its rows a stroke. */
function joint(sign: string, inTable: boolean): string {
  switch (sign) {
    case ';':
      return ',';
    case '|':
      return inTable ? ';' : '|';
    default:
      return '~';
  }
}

const CORNER =
  /^(?:'((?:[^']|'')*)'#)?(?:\$?((?:'(?:[^']|'')*')|[^.'#]*))?\.(\$?[A-Za-z]{0,4}\$?\d*)$/s;

/** `$'My parts'.$B$2:.C9` as `'My parts'!$B$2:C9`. */
export function plainReference(inside: string): string {
  if (inside.includes('#REF!')) return '#REF!';
  const [first = '', second, ...more] = halves(inside);
  const from = CORNER.exec(first);
  const to = second === undefined ? undefined : CORNER.exec(second);
  if (from === null || to === null || more.length > 0) return `[${inside}]`;
  const [, elsewhere, sheet = '', corner = ''] = from;
  // A range over several sheets, and one in another file, are no references here.
  const other = to?.[2];
  if (elsewhere !== undefined || to?.[1] !== undefined) return `[${inside}]`;
  if (other !== undefined && other !== '' && other !== sheet) return `[${inside}]`;
  const prefix = sheet === '' ? '' : `${sheet.startsWith("'") ? sheet : quoted(sheet)}!`;
  return `${prefix}${corner}${to === undefined ? '' : `:${to[3]}`}`;
}

const quoted = (sheet: string): string => `'${sheet.replaceAll("'", "''")}'`;

/** A reference's two corners; a colon may stand in the name of a sheet. */
function halves(text: string): readonly string[] {
  const found = [''];
  let isQuoted = false;
  for (const letter of text) {
    if (letter === "'") isQuoted = !isQuoted;
    if (letter === ':' && !isQuoted) found.push('');
    else found[found.length - 1] += letter;
  }
  return found;
}

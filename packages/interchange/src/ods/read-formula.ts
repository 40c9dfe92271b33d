import { functionOf } from './open-formula.ts';

/** What a formula says of where it comes from, before its `=`: `of:`, `oooc:`, `msoxl:`. */
const KIND = /^([A-Za-z][\w.-]*):(?==)/;
const NAME = /[A-Za-z_\p{L}][\w.\p{L}]*/uy;

/**
 * A formula of a file as others write it, without its `=`: `of:=SUM([.B1:.C2];1)` is `SUM(B1:C2,1)`. What has no such
 * form stays as it is, and is refused where formulas are read. Each letter is looked at once, whatever the file says.
 */
export function plainFormula(text: string): string {
  const kind = KIND.exec(text)?.[1]?.toLowerCase();
  const formula = text.slice(kind === undefined ? 0 : kind.length + 1).replace(/^=/, '');
  // Formulas of other kinds are written that way already.
  if (kind === 'msoxl') return formula;
  let plain = '';
  let tables = 0;
  for (let at = 0; at < formula.length; ) {
    const letter = formula[at] ?? '';
    let end = at + 1;
    if (letter === '"') {
      end = quoteEnd(formula, at, '"');
      plain += formula.slice(at, end);
    } else if (letter === '[') {
      end = bracketEnd(formula, at);
      const inside = formula.slice(at + 1, end - 1);
      plain += formula[end - 1] === ']' ? plainReference(inside) : formula.slice(at, end);
    } else if (letter === '{' || letter === '}') {
      tables += letter === '{' ? 1 : -1;
      plain += letter;
    } else if (letter === ';' || letter === '|') plain += joint(letter, tables > 0);
    // Two of them say that a name is one (part 4, 5.11).
    else if (letter === '$' && formula[at + 1] === '$') end = at + 2;
    else {
      NAME.lastIndex = at;
      const name = NAME.exec(formula)?.[0];
      if (name === undefined) plain += letter;
      else {
        end = at + name.length;
        plain += /^\s*\(/.test(formula.slice(end, end + 9)) ? functionOf(name) : name;
      }
    }
    at = end;
  }
  return plain;
}

/** Behind a quoted piece, in which a doubled sign stands for one; the end of the formula where it is not closed. */
function quoteEnd(formula: string, from: number, sign: string): number {
  for (let at = from + 1; at < formula.length; at += 1) {
    if (formula[at] !== sign) continue;
    if (formula[at + 1] !== sign) return at + 1;
    at += 1;
  }
  return formula.length;
}

/** Behind a reference, in which names of sheets may be quoted; the end of the formula where it is not closed. */
function bracketEnd(formula: string, from: number): number {
  for (let at = from + 1; at < formula.length; at += 1) {
    if (formula[at] === ']') return at + 1;
    if (formula[at] === "'") at = quoteEnd(formula, at, "'") - 1;
  }
  return formula.length;
}

/** Between cells of a constant table stands a semicolon there, between its rows a stroke. */
function joint(sign: string, inTable: boolean): string {
  if (sign === ';') return ',';
  return inTable ? ';' : '|';
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

import { isFormula } from '../session/pointing.ts';

/** An entry after a key, and where its caret stands. */
interface Written {
  readonly text: string;
  readonly caret: number;
}

/** What may follow a bracket or a quote that closes itself: nothing that it would tear apart. */
const CLOSES_BEFORE = /^(?:$|[\s),;+\-*/^&<>=:}])/;

/**
 * What brackets and quotes do in a formula: an opening one brings its closing one, which is then stepped over, and
 * taking out the one between them takes both. `undefined`: the key does what it always does.
 * @param selected where the selected letters begin and end
 */
export function pairKey(
  text: string,
  [start, end]: readonly [start: number, end: number],
  key: string,
): Written | undefined {
  if (!isFormula(text) || start <= text.indexOf('=')) return undefined;
  const [before, after] = [text.slice(0, start), text.slice(end)];
  const quoted = inQuotes(before);
  const alone = start === end;
  switch (key) {
    case '(':
      if (quoted) return undefined;
      if (!alone) return { text: `${before}(${text.slice(start, end)})${after}`, caret: end + 2 };
      return CLOSES_BEFORE.test(after)
        ? { text: `${before}()${after}`, caret: start + 1 }
        : undefined;
    case ')':
      return alone && !quoted && after.startsWith(')') && openIn(text) <= 0
        ? { text, caret: start + 1 }
        : undefined;
    case '"':
      if (!alone) return undefined;
      if (quoted) return after.startsWith('"') ? { text, caret: start + 1 } : undefined;
      // A second quote after one that closed stands for a quote within the words.
      return !before.endsWith('"') && CLOSES_BEFORE.test(after)
        ? { text: `${before}""${after}`, caret: start + 1 }
        : undefined;
    case 'Backspace':
      return alone && isEmptyPair(before, after)
        ? { text: before.slice(0, -1) + after.slice(1), caret: start - 1 }
        : undefined;
    default:
      return undefined;
  }
}

function isEmptyPair(before: string, after: string): boolean {
  if (before.endsWith('(')) return after.startsWith(')') && !inQuotes(before);
  return before.endsWith('"') && after.startsWith('"') && !inQuotes(before.slice(0, -1));
}

/** Whether what comes next stands within words in quotes. */
const inQuotes = (before: string): boolean => before.split('"').length % 2 === 0;

/** How many brackets are open at the end, quoted ones not counted. */
function openIn(text: string): number {
  const bare = text.replace(/"[^"]*(?:"|$)/g, '');
  return bare.split('(').length - bare.split(')').length;
}

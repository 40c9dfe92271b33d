import type { At, OpenWorkbook } from '@kerfbook/workbook';

/** A text that was pasted into a table and that its maker wants read: the dialog that opens next takes it. */
let text = '';

export function beginWith(pasted: string): void {
  text = pasted;
}

/** Answers once; whoever opens the dialog otherwise begins with nothing. */
export function begunWith(): string {
  const taken = text;
  text = '';
  return taken;
}

/** Sizes of one piece, with two signs between them, or heads of a list. */
const SIZES = /\d["”″']?\s*(?:mm|cm|in\.?)?\s*[x×]\s*[\d.].*?[x×]\s*[\d.]/i;
const HEADS =
  /\b(?:qty|quantity|count|part)\b.*\b(?:thick|width|wide|length|long)|\b(?:thick|width|length)\w*\b.*\b(?:thick|width|length)/i;
/** Letters that are looked at. */
const MOST = 4_000;

/** Whether a text looks like a list of parts or boards; told without reading it. */
export function looksLikeList(pasted: string): boolean {
  const lines = pasted
    .slice(0, MOST)
    .split(/\r?\n/)
    .map((line) => line.slice(0, 300));
  return lines.some((line) => SIZES.test(line)) || (lines.length > 1 && HEADS.test(lines[0] ?? ''));
}

/** Whether a cell stands in the rows of a table of parts or boards, and of which. */
export function listKindAt(book: OpenWorkbook, { sheet, row }: At): 'parts' | 'stock' | undefined {
  for (const { kind, sheet: on, header, last } of book.tables()) {
    if (on !== sheet || row <= header || row > last) continue;
    if (kind === 'parts' || kind === 'stock') return kind;
  }
  return undefined;
}

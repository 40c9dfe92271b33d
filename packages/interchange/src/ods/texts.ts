import { element, escaped, isPlain } from '../xml/write.ts';

/** Letters that XML 1.0 has no place for. The format does not spell them out: they are left out. */
const UNWRITABLE =
  /[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFE\uFFFF]|[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/g;

/** A text as the format can hold it. */
export const writable = (text: string): string =>
  isPlain(text) ? text : text.replaceAll(UNWRITABLE, '');

/** A text as paragraphs, spaces and tabs in it kept (OpenDocument 1.3 part 3, 6.1.2 and 6.1.3). */
export function paragraphs(text: string): string {
  if (NUMBER.test(text)) return `<text:p>${text}</text:p>`;
  return writable(text)
    .replaceAll('\r\n', '\n')
    .split(/[\n\r]/)
    .map((line) => element('text:p', {}, spaced(line)))
    .join('');
}

/** No letter of it is to be written otherwise. */
const NUMBER = /^[-+.0-9E]+$/;

function spaced(line: string): string {
  return line
    .split(/(\t|^ +| +$| {2,})/)
    .map((piece) => {
      if (piece === '\t') return '<text:tab/>';
      if (!/^ +$/.test(piece)) return escaped(piece);
      return piece === ' ' && line !== ' ' && !line.startsWith(' ') && !line.endsWith(' ')
        ? ' '
        : element('text:s', { 'text:c': piece.length });
    })
    .join('');
}

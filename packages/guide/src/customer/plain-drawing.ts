import { drawn, type Html } from '../page/html.ts';

/** What a drawing is made of; nothing else of it goes on. */
const TAGS = new Set(['svg', 'g', 'path', 'rect', 'text']);
/** What may be said of it: lines, colors and letters. Which cell of the workbook a piece stands in is not. */
const ATTRIBUTES = new Set([
  'class',
  'd',
  'fill',
  'fill-opacity',
  'font-size',
  'height',
  'stroke',
  'text-anchor',
  'transform',
  'vector-effect',
  'viewBox',
  'width',
  'x',
  'xmlns',
  'y',
]);
/** Sizes, and the caption of a view. */
const WORDS =
  /^(?:[\d\s/.,×ØR°'"]|in|ft|mm|cm|m)+$|^(?:Top|Front|End), sizes in (?:inches|millimeters)(?:, [\d\s/.:=inftmc]+)?$/;

/**
 * A drawing of ours as a customer gets it: its lines and sizes. It is put together anew from what may be shown; names and
 * sizes of the parts, which a drawing carries for whoever does not see it, stay at the shop.
 * @param says what it shows, for whoever does not see it
 */
export function plainDrawing(svg: string, says: string): Html {
  const pieces: string[] = [];
  let opened = '';
  for (const [, end, tag = '', rest = '', text = ''] of svg.matchAll(
    /<(\/?)([A-Za-z]+)([^>]*)>([^<]*)/g,
  )) {
    if (!TAGS.has(tag)) continue;
    if (end === '/') {
      pieces.push(`</${tag}>`);
      continue;
    }
    const attributes = [...rest.matchAll(/([A-Za-z-]+)="([^"<>]*)"/g)].flatMap(
      ([, name = '', value = '']) => (ATTRIBUTES.has(name) ? [` ${name}="${value}"`] : []),
    );
    const named = opened === '' ? ` role="img" aria-label="${quoted(says)}"` : '';
    opened ||= tag;
    pieces.push(`<${tag}${attributes.join('')}${named}${rest.endsWith('/') ? '/' : ''}>`);
    if (tag === 'text' && WORDS.test(text.trim())) pieces.push(text.trim());
  }
  return drawn(pieces.join(''));
}

const quoted = (says: string): string =>
  says.replaceAll(/[^\p{L}\p{N} .,'-]/gu, ' ').replaceAll("'", '&#39;');

/** Letters that XML 1.0 has no place for; the open format writes them `_x0007_` (ECMA-376 part 1, 22.9.2.19). */
const UNWRITABLE =
  /[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFE\uFFFF]|[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/g;
const LIKE_ESCAPED = /_(?=x[0-9A-Fa-f]{4}_)/g;

const ESCAPED = /[&<>"\r\n\t]/;

/** Words as they stand between tags or in an attribute. */
export function escaped(text: string): string {
  // Nearly all texts of a large file are numbers and formulas: there is nothing in them to be looked for seven times.
  if (!ESCAPED.test(text)) return text;
  return text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll('\r', '&#13;')
    .replaceAll('\n', '&#10;')
    .replaceAll('\t', '&#9;');
}

/** Whether a text has nothing but letters, digits and signs of ASCII: all of them have their place in XML. */
export const isPlain = (text: string): boolean => PLAIN.test(text);

const PLAIN = /^[ -~]*$/;

/** Words of a cell, a remark or a formula: what XML has no place for is spelled out. */
export const cellText = (text: string): string => {
  const spelled = text.includes('_x') ? text.replaceAll(LIKE_ESCAPED, '_x005F_') : text;
  if (isPlain(spelled)) return escaped(spelled);
  return escaped(
    spelled.replaceAll(
      UNWRITABLE,
      (letter) => `_x${letter.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}_`,
    ),
  );
};

/** The inverse of what {@link cellText} spells out. */
export const unspelled = (text: string): string =>
  text.includes('_x')
    ? text.replaceAll(/_x([0-9A-Fa-f]{4})_/g, (_, hex: string) =>
        String.fromCharCode(Number.parseInt(hex, 16)),
      )
    : text;

/** What an attribute may be; one that is undefined is left out. */
export type Attributes = Readonly<Record<string, string | number | boolean | undefined>>;

function attributesText(attributes: Attributes): string {
  let text = '';
  for (const name in attributes) {
    const value = attributes[name];
    if (value === undefined) continue;
    const written =
      typeof value === 'string'
        ? escaped(value)
        : String(typeof value === 'boolean' ? Number(value) : value);
    text += ` ${name}="${written}"`;
  }
  return text;
}

/** An element with what stands in it, which is written already. */
export function element(name: string, attributes: Attributes, inside = ''): string {
  const head = `<${name}${attributesText(attributes)}`;
  return inside === '' ? `${head}/>` : `${head}>${inside}</${name}>`;
}

/** The first line of every part. */
export const DECLARATION = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';

import { escapeText } from '@kerfbook/drawing';

const ENTITIES: Readonly<Record<string, string>> = {
  amp: '&',
  lt: '<',
  gt: '>',
  quot: '"',
  '#39': "'",
};

/** Text as it was before it was made fit for SVG. */
export const unescaped = (text: string): string =>
  text.replaceAll(/&(amp|lt|gt|quot|#39);/g, (_, name: string) => ENTITIES[name] ?? '');

/**
 * A drawing that was made elsewhere, with its writings in another language; what is left in its own says so.
 * @param langOf which language writings are in, where that is not the one around them
 */
export const spokenSvg = <S extends { readonly words: string }>(
  svg: string,
  made: (text: string) => S,
  langOf: (spoken: S) => string | undefined,
): string =>
  svg.replaceAll(
    /<(text|title|desc)((?:\s[^>]*)?)>([^<]*)</g,
    (_, tag: string, attributes: string, text: string) => {
      const spoken = made(unescaped(text));
      const lang = langOf(spoken);
      return `<${tag}${attributes}${lang === undefined ? '' : ` lang="${lang}"`}>${escapeText(spoken.words)}<`;
    },
  );

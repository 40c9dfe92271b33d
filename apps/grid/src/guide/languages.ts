/** Languages that are offered, tags after BCP 47; any other is kept where a workbook has it. */
const OFFERED = [
  'en',
  'cs',
  'da',
  'de',
  'es',
  'fi',
  'fr',
  'hu',
  'it',
  'ja',
  'ko',
  'nb',
  'nl',
  'pl',
  'pt',
  'sv',
  'tr',
  'uk',
  'zh',
] as const;

/** A language by its English name; its tag where the browser has none for it. */
export function languageName(tag: string): string {
  try {
    return new Intl.DisplayNames('en', { type: 'language' }).of(tag) ?? tag;
  } catch {
    return tag;
  }
}

/** The languages to choose from, by their names, with what a workbook says already. */
export function languages(
  also: string | undefined,
): readonly { readonly tag: string; readonly says: string }[] {
  const tags = new Set<string>([...OFFERED, ...(also === undefined ? [] : [also])]);
  return [...tags]
    .map((tag) => ({ tag, says: languageName(tag) }))
    .sort((a, b) => a.says.localeCompare(b.says, 'en'));
}

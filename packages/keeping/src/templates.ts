/** A workbook that ships with the app. */
export interface ShippedTemplate {
  /** File name without its ending. */
  readonly key: string;
  readonly title: string;
  readonly about: string;
  /** Its saved text; rejects where it cannot be had, as without a network before the app is kept. */
  readonly text: () => Promise<string>;
}

/** What is known of a template before its text is read. */
export interface TemplateHead {
  readonly title: string;
  readonly about: string;
  /** Where its text lies, for the page. */
  readonly address: string;
}

/** Id of the one working copy a maker has of a shipped template. */
export function workingCopyId(key: string): string {
  return `template-${key}`;
}

/** The templates behind their files' paths, by title; each text is read once, when it is needed. */
export function templatesOf(
  heads: Readonly<Record<string, TemplateHead>>,
  read: (address: string) => Promise<string>,
): readonly ShippedTemplate[] {
  return Object.entries(heads)
    .map(([path, { title, about, address }]) => {
      const key = path.slice(path.lastIndexOf('/') + 1).replace(/\.json$/, '');
      let text: Promise<string> | undefined;
      const once = (): Promise<string> => {
        text ??= read(address).catch((error: unknown) => {
          text = undefined;
          throw error;
        });
        return text;
      };
      return { key, title, about, text: once };
    })
    .sort((a, b) => a.title.localeCompare(b.title, 'en'));
}

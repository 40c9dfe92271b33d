/** A workbook that ships with the app. */
export interface ShippedTemplate {
  /** File name without its ending. */
  readonly key: string;
  readonly title: string;
  readonly about: string;
  readonly text: string;
}

/** Id of the one working copy a maker has of a shipped template. */
export function workingCopyId(key: string): string {
  return `template-${key}`;
}

/** Reads title and description out of the templates' saved texts. */
export function readTemplates(texts: Readonly<Record<string, string>>): readonly ShippedTemplate[] {
  return Object.entries(texts)
    .map(([path, text]) => {
      const { title, about } = JSON.parse(text) as { title: string; about?: string };
      const key = path.slice(path.lastIndexOf('/') + 1).replace(/\.json$/, '');
      return { key, title, about: about ?? '', text };
    })
    .sort((a, b) => a.title.localeCompare(b.title, 'en'));
}

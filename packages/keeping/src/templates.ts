/** A workbook that ships with the app. */
export interface ShippedTemplate {
  /** File name without its ending. */
  readonly key: string;
  /** What it is called. */
  readonly title: string;
  /** What it is for, in a few sentences. */
  readonly about: string;
  /** Its revision, and SHA-256 of the text; left out where that is not known. */
  readonly state?: TemplateState;
  /** Its saved text; rejects where it cannot be had, as without a network before the app is kept. */
  readonly text: () => Promise<string>;
}

/** Which state a template is in. */
export interface TemplateState {
  /** Grows with every change of it. */
  readonly revision: number;
  /** SHA-256 of its saved text in hexadecimal digits. */
  readonly sign: string;
}

/** What is known of a template before its text is read. */
export interface TemplateHead {
  /** What it is called. */
  readonly title: string;
  /** What it is for, in a few sentences. */
  readonly about: string;
  /** Its revision, and SHA-256 of its text. */
  readonly state?: TemplateState;
  /** Where its text lies, for the page. */
  readonly address: string;
}

/** Id of the one working copy a maker has of a shipped template. */
export function workingCopyId(key: string): string {
  return `template-${key}`;
}

/**
 * The templates behind their files' paths: the one that opens where nothing was open yet, then the
 * others by title. Each text is read once, when it is needed.
 * @param first key of the one that opens first
 * @throws Error where there is no such template
 */
export function templatesOf(
  heads: Readonly<Record<string, TemplateHead>>,
  first: string,
  read: (address: string) => Promise<string>,
): readonly ShippedTemplate[] {
  const templates = Object.entries(heads)
    .map(([path, { title, about, state, address }]) => {
      const key = path.slice(path.lastIndexOf('/') + 1).replace(/\.json$/, '');
      let text: Promise<string> | undefined;
      const once = (): Promise<string> => {
        text ??= read(address).catch((error: unknown) => {
          text = undefined;
          throw error;
        });
        return text;
      };
      return { key, title, about, ...(state === undefined ? {} : { state }), text: once };
    })
    .sort((a, b) => a.title.localeCompare(b.title, 'en'));
  const opens = templates.find(({ key }) => key === first);
  if (opens === undefined) throw new Error(`there is no template ${first} to open first`);
  return [opens, ...templates.filter((one) => one !== opens)];
}

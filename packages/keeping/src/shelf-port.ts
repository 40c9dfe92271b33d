/** A template of a club's shelf as it stands there. */
export interface TemplateOnShelf {
  /** What it is called now. */
  readonly title: string;
  /** Number of its last revision. */
  readonly revision: number;
  /** SHA-256 of the text of that revision. */
  readonly sign: string;
  /** The text of a revision; the last one where none is named. Rejects where it cannot be had. */
  readonly text: (revision?: number) => Promise<string>;
}

/** The shelf of the club that serves the page, as far as workbooks on this device have to do with it. */
export interface ShelfPort {
  /** Rejects where the club cannot be reached, and where the template is not on its shelf any more. */
  now(id: string): Promise<TemplateOnShelf>;
}

const PREFIX = 'shelf-';
/** Letters of a key, as a workbook's lineage takes it. */
const LONGEST_KEY = 64;

/**
 * The key that a workbook's lineage knows a template of the shelf by: lower case only, so that what an id has
 * otherwise is written with a hyphen before it. Nothing where the id is too long for one.
 */
export function shelfKey(id: string): string | undefined {
  const key = PREFIX + id.replace(/[^a-z0-9]/g, (one) => `-${ESCAPED[one] ?? one.toLowerCase()}`);
  return key.length <= LONGEST_KEY ? key : undefined;
}

const ESCAPED: Readonly<Record<string, string>> = { '-': '-', _: '0' };

/** The template of the shelf that a key stands for; nothing where it stands for another one. */
export function shelfId(key: string | undefined): string | undefined {
  if (key?.startsWith(PREFIX) !== true) return undefined;
  return key
    .slice(PREFIX.length)
    .replace(/-(.)/g, (_both, one: string) =>
      one === '-' ? '-' : one === '0' ? '_' : one.toUpperCase(),
    );
}

import { element, escaped } from '../xml/write.ts';

/** What files of the format call its words; prefixes are ours to choose (OpenDocument 1.3 part 3, 1.4). */
export const SPACES = {
  office: 'urn:oasis:names:tc:opendocument:xmlns:office:1.0',
  style: 'urn:oasis:names:tc:opendocument:xmlns:style:1.0',
  text: 'urn:oasis:names:tc:opendocument:xmlns:text:1.0',
  table: 'urn:oasis:names:tc:opendocument:xmlns:table:1.0',
  draw: 'urn:oasis:names:tc:opendocument:xmlns:drawing:1.0',
  fo: 'urn:oasis:names:tc:opendocument:xmlns:xsl-fo-compatible:1.0',
  number: 'urn:oasis:names:tc:opendocument:xmlns:datastyle:1.0',
  svg: 'urn:oasis:names:tc:opendocument:xmlns:svg-compatible:1.0',
  meta: 'urn:oasis:names:tc:opendocument:xmlns:meta:1.0',
  config: 'urn:oasis:names:tc:opendocument:xmlns:config:1.0',
  manifest: 'urn:oasis:names:tc:opendocument:xmlns:manifest:1.0',
  of: 'urn:oasis:names:tc:opendocument:xmlns:of:1.2',
  xlink: 'http://www.w3.org/1999/xlink',
  dc: 'http://purl.org/dc/elements/1.1/',
} as const;

/** What a spreadsheet says it is (part 2, 3.3). */
export const MIME = 'application/vnd.oasis.opendocument.spreadsheet';
export const VERSION = '1.3';

/** The words of the format that a part uses. */
export const spaces = (...names: readonly (keyof typeof SPACES)[]): Record<string, string> =>
  Object.fromEntries(names.map((name) => [`xmlns:${name}`, SPACES[name]]));

/** The list of parts (part 2, 4). */
export const manifest = (
  parts: readonly { readonly path: string; readonly type: string }[],
): string =>
  element(
    'manifest:manifest',
    { ...spaces('manifest'), 'manifest:version': VERSION },
    [{ path: '/', type: MIME }, ...parts]
      .map(({ path, type }) =>
        element('manifest:file-entry', {
          'manifest:full-path': path,
          'manifest:version': path === '/' ? VERSION : undefined,
          'manifest:media-type': type,
        }),
      )
      .join(''),
  );

/** Who wrote the file. No day: when it was written is nobody's business. */
export const metaPart = (title: string): string =>
  element(
    'office:document-meta',
    { ...spaces('office', 'meta', 'dc'), 'office:version': VERSION },
    element(
      'office:meta',
      {},
      `<meta:generator>Kerfbook</meta:generator><dc:title>${escaped(title)}</dc:title>`,
    ),
  );

/** The same the other way round, for reading. */
export const WORDS: ReadonlyMap<string, string> = new Map(
  Object.entries(SPACES).map(([prefix, uri]) => [uri, prefix]),
);

/**
 * What libraries ship and the app never comes to. Each is named by its library, by its file, by words
 * that stand there exactly once, and by what is put in the place of these words or of the whole file.
 * Where a new version of the library is made otherwise, the build stops and says so. `since` is the day
 * it was first left out, which the page of licences tells.
 * @type {readonly {
 *   of: string, since: string, what: string, file: RegExp, words: RegExp, put: string, whole: boolean,
 * }[]}
 */
export const LEFT_OUT = [
  {
    // For a picker of functions; ours are described in packages/workbook/src/reference. The functions
    // themselves are registered elsewhere.
    of: 'hyperformula',
    since: '2026-11-26',
    what: 'descriptions of the standard functions',
    file: /\/hyperformula\/es\/interpreter\/functionMetadata\/index\.mjs$/,
    words: /^export const FUNCTION_DOCS = /m,
    put: 'export const FUNCTION_DOCS = Object.create(null);',
    whole: true,
  },
  {
    // The engine is used under the GPL, whose key is no such text (`engineConfig`).
    of: 'hyperformula',
    since: '2026-11-26',
    what: 'reading of commercial licence texts',
    file: /\/hyperformula\/es\/license\/handsontable-license-key-parser\/readLicense\.mjs$/,
    words: /^export function readEntitlementLicense\(/m,
    put: `export function readEntitlementLicense() {
      throw new Error('This build of the engine reads no commercial licence.');
    }`,
    whole: true,
  },
  {
    of: 'hyperformula',
    since: '2026-11-26',
    what: 'what commercial licences allow',
    file: /\/hyperformula\/es\/license\/functionCapabilities\.mjs$/,
    words: /^export const FUNCTION_CAPABILITY_TABLE = /m,
    put: 'export const FUNCTION_CAPABILITY_TABLE = new Map();',
    whole: true,
  },
  {
    // The grammar of formulas and its words are the library's own and do not change. In Node, where the
    // engine's tests run, both are checked all the same whenever a parser is made.
    of: 'chevrotain',
    since: '2026-11-26',
    what: 'checks of the grammar of formulas',
    file: /\/chevrotain\/lib_esm\/src\/parse\/grammar\/gast\/gast_resolver_public\.js$/,
    words: /^export function validateGrammar\([\s\S]*?^\}/m,
    put: 'export function validateGrammar() {\n    return [];\n}',
    whole: false,
  },
  {
    of: 'chevrotain',
    since: '2026-11-26',
    what: 'checks of the words of formulas',
    file: /\/chevrotain\/lib_esm\/src\/scan\/lexer\.js$/,
    words: /^export function validatePatterns\([\s\S]*?^\}/m,
    put: 'export function validatePatterns() {\n    return [];\n}',
    whole: false,
  },
  {
    // Icons, check boxes, tabs, buttons: the theme of `grid-looks.ts` takes what our grid shows.
    of: 'ag-grid-community',
    since: '2026-11-26',
    what: 'parts of the theme for a grid that is given none',
    file: /\/ag-grid-community\/dist\/package\/main\.esm\.mjs$/,
    words: /(?<=^ {2}getDefaultTheme\(\) \{\n {4})return themeQuartz;/m,
    put: 'return createTheme();',
    whole: false,
  },
];

const MEND = 'Look at the library anew and mend apps/grid/scripts/leave-out.mjs.';

/**
 * Keeps what is never come to out of the build.
 * @param {readonly Omit<(typeof LEFT_OUT)[number], 'of' | 'since'>[]} [parts]
 * @returns {import('vite').Plugin}
 */
export function leaveOut(parts = LEFT_OUT) {
  /** @type {Set<string>} */
  const met = new Set();
  return {
    name: 'kerfbook-leave-out',
    apply: 'build',
    enforce: 'pre',
    buildStart() {
      met.clear();
    },
    transform(code, id) {
      const path = id.replaceAll('\\', '/');
      const part = parts.find(({ file }) => file.test(path));
      if (part === undefined) return undefined;
      const { what, words, put, whole } = part;
      if (code.split(words).length !== 2) {
        this.error(`${id} is not made as expected: "${what}" cannot be left out. ${MEND}`);
      }
      met.add(what);
      return { code: whole ? put : code.replace(words, put), map: null };
    },
    buildEnd(error) {
      if (error !== undefined) return;
      const missed = parts.filter(({ what }) => !met.has(what)).map(({ what }) => `"${what}"`);
      if (missed.length > 0) this.error(`No file was met for ${missed.join(', ')}. ${MEND}`);
    },
  };
}

/**
 * What libraries ship and the app never reads. Each is named by its file, by how that file has to
 * begin and by what stands in its place: where a new version of the library is made otherwise, the
 * build stops and says so, instead of leaving out something else or nothing.
 * @type {readonly { file: RegExp, holds: RegExp, put: string, why: string }[]}
 */
const LEFT_OUT = [
  {
    // Descriptions for a picker of functions. Ours are in packages/workbook/src/reference. The
    // functions themselves are registered elsewhere.
    why: 'descriptions of the standard functions',
    file: /\/hyperformula\/es\/interpreter\/functionMetadata\/index\.mjs$/,
    holds: /^export const FUNCTION_DOCS = Object\.assign\(Object\.create\(null\), /m,
    put: 'export const FUNCTION_DOCS = Object.create(null);',
  },
];

/**
 * Keeps what is never read out of the build.
 * @param {typeof LEFT_OUT} [parts]
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
      const part = parts.find(({ file }) => file.test(id.replaceAll('\\', '/')));
      if (part === undefined) return undefined;
      if (!part.holds.test(code)) {
        this.error(`${id} is not made as expected, so that ${part.why} cannot be left out. ${FIX}`);
      }
      met.add(part.why);
      return { code: part.put, map: null };
    },
    buildEnd(error) {
      if (error !== undefined) return;
      const missed = parts
        .filter(({ why }) => !met.has(why))
        .map(({ why, file }) => `${why} (${file})`);
      if (missed.length > 0) this.error(`No file was met that holds ${missed.join(', ')}. ${FIX}`);
    },
  };
}

const FIX = 'Look at the library anew and mend apps/grid/scripts/leave-out.mjs.';

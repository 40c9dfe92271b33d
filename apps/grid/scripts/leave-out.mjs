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
    of: 'hyperformula',
    since: '2026-11-26',
    what: 'listing of the standard functions',
    file: /\/hyperformula\/es\/interpreter\/functionMetadata\/buildFunctionDescriptions\.mjs$/,
    words: /^export function buildFunctionListEntry\(/m,
    put: `const none = () => {
      throw new Error('This build of the engine describes no functions.');
    };
    export const buildFunctionListEntry = none;
    export const buildFunctionDetails = none;
    export const buildCustomFunctionListEntry = none;
    export const buildCustomFunctionDetails = none;`,
    whole: true,
  },
  {
    // The catalogue names every function (`prepareEngine`).
    of: 'hyperformula',
    since: '2026-11-26',
    what: 'names of functions',
    file: /\/hyperformula\/es\/i18n\/languages\/enGB\.mjs$/,
    words: /(?<=^ {2}functions: )\{[\s\S]*?^ {2}\}/m,
    put: '{}',
    whole: false,
  },
  {
    // Lines that change places are told anew.
    of: 'hyperformula',
    since: '2026-11-26',
    what: 'asking for another order of lines',
    file: /\/hyperformula\/es\/HyperFormula\.mjs$/,
    words: /^ {2}swapRowIndexes\([\s\S]*?(?=^ {2}isItPossibleToAddRows\()/m,
    put: '',
    whole: false,
  },
  {
    of: 'hyperformula',
    since: '2026-11-26',
    what: 'asking to move, copy, fill and list cells',
    file: /\/hyperformula\/es\/HyperFormula\.mjs$/,
    words: /^ {2}isItPossibleToMoveCells\([\s\S]*?(?=^ {2}isItPossibleToAddSheet\()/m,
    put: '',
    whole: false,
  },
  {
    of: 'hyperformula',
    since: '2026-11-26',
    what: 'asking for descriptions of functions',
    file: /\/hyperformula\/es\/HyperFormula\.mjs$/,
    words: /^ {2}static resolveFunctionMetadata\([\s\S]*?(?=^ {2}static buildFromEngineState\()/m,
    put: '',
    whole: false,
  },
  {
    // The clipboard is the app's; the engine is only told cells.
    of: 'hyperformula',
    since: '2026-11-26',
    what: 'copying and pasting',
    file: /\/hyperformula\/es\/ClipboardOperations\.mjs$/,
    words: /^class Clipboard \{[\s\S]*^export class ClipboardOperations \{[\s\S]*$/m,
    put: 'export class ClipboardOperations {\n  abortCut() {}\n  clear() {}\n}',
    whole: false,
  },
  {
    // Cells that move are told anew.
    of: 'hyperformula',
    since: '2026-11-26',
    what: 'moving of cells',
    file: /\/hyperformula\/es\/Operations\.mjs$/,
    words: /^ {2}moveRows\([\s\S]*?(?=^ {2}addNamedExpression\()/m,
    put: '',
    whole: false,
  },
  {
    of: 'hyperformula',
    since: '2026-11-26',
    what: 'carrying out of moves, cuts and pastes',
    file: /\/hyperformula\/es\/CrudOperations\.mjs$/,
    words: /^ {2}moveCells\([\s\S]*?(?=^ {2}beginUndoRedoBatchMode\()/m,
    put: '',
    whole: false,
  },
  {
    of: 'hyperformula',
    since: '2026-11-26',
    what: 'carrying out of another order of lines, and of undo',
    file: /\/hyperformula\/es\/CrudOperations\.mjs$/,
    words: /^ {2}setRowOrder\([\s\S]*?(?=^ {2}addNamedExpression\()/m,
    put: '',
    whole: false,
  },
  {
    of: 'hyperformula',
    since: '2026-11-26',
    what: 'whether lines may be moved',
    file: /\/hyperformula\/es\/CrudOperations\.mjs$/,
    words: /^ {2}ensureItIsPossibleToMoveRows\([\s\S]*?(?=^ {2}ensureItIsPossibleToAddSheet\()/m,
    put: '',
    whole: false,
  },
  {
    of: 'hyperformula',
    since: '2026-11-26',
    what: 'cells that are put back',
    file: /\/hyperformula\/es\/Operations\.mjs$/,
    words: /^ {2}ensureItIsPossibleToMoveCells\([\s\S]*?(?=^ {2}getOldContent\()/m,
    put: '',
    whole: false,
  },
  {
    of: 'hyperformula',
    since: '2026-11-26',
    what: 'names of cells that moved',
    file: /\/hyperformula\/es\/Operations\.mjs$/,
    words:
      /^ {2}updateNamedExpressionsForMovedCells\([\s\S]*?(?=^ {2}allocateNamedExpressionAddressSpace\()/m,
    put: '',
    whole: false,
  },
  {
    of: 'hyperformula',
    since: '2026-11-26',
    what: 'asking for undo',
    file: /\/hyperformula\/es\/HyperFormula\.mjs$/,
    words: /^ {2}undo\([\s\S]*?(?=^ {2}isItPossibleToSetCellContents\()/m,
    put: '',
    whole: false,
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
    // A formula that cannot be read is refused as a whole; nothing is read past the mistake.
    of: 'chevrotain',
    since: '2026-11-26',
    what: 'reading on after a mistake in a formula',
    file: /\/chevrotain\/lib_esm\/src\/parse\/parser\/traits\/recoverable\.js$/,
    words: /^var Recoverable = /m,
    put: `export const IN_RULE_RECOVERY_EXCEPTION = 'InRuleRecoveryException';
    export class Recoverable {
      initRecoverable({ recoveryEnabled = false }) {
        if (recoveryEnabled) throw new Error('This build reads no formula past a mistake.');
        this.resyncFollows = {};
        this.recoveryEnabled = false;
      }
      attemptInRepetitionRecovery() {}
    }`,
    whole: true,
  },
  {
    // The engine makes its own tree of a formula while it reads.
    of: 'chevrotain',
    since: '2026-11-26',
    what: 'trees that readers of any grammar build',
    file: /\/chevrotain\/lib_esm\/src\/parse\/parser\/traits\/tree_builder\.js$/,
    words: /^var TreeBuilder = /m,
    put: `const nothing = () => {};
    export class TreeBuilder {
      initTreeBuilder({ outputCst = true }) {
        if (outputCst) throw new Error('This build of the reader builds no trees.');
        this.CST_STACK = [];
        this.outputCst = false;
        this.cstInvocationStateUpdate = nothing;
        this.cstFinallyStateUpdate = nothing;
        this.cstPostTerminal = nothing;
        this.cstPostNonTerminal = nothing;
        this.cstPostRule = nothing;
        this.manyInternal = this.manyInternalNoCst;
        this.orInternal = this.orInternalNoCst;
        this.optionInternal = this.optionInternalNoCst;
        this.atLeastOneInternal = this.atLeastOneInternalNoCst;
        this.manySepFirstInternal = this.manySepFirstInternalNoCst;
        this.atLeastOneSepFirstInternal = this.atLeastOneSepFirstInternalNoCst;
      }
      getLastExplicitRuleShortName() {
        return this.RULE_STACK.at(-1);
      }
      getPreviousExplicitRuleShortName() {
        return this.RULE_STACK.at(-2);
      }
      getLastExplicitRuleOccurrenceIndex() {
        return this.RULE_OCCURRENCE_STACK.at(-1);
      }
    }`,
    whole: true,
  },
  {
    // `engineConfig` asks for no index of columns.
    of: 'hyperformula',
    since: '2026-11-26',
    what: 'index of columns',
    file: /\/hyperformula\/es\/Lookup\/ColumnIndex\.mjs$/,
    words: /^export class ColumnIndex /m,
    put: `export class ColumnIndex {
      constructor() {
        throw new Error('This build of the engine has no index of columns.');
      }
    }`,
    whole: true,
  },
  {
    // Undo is ours (`engineConfig`): what the engine would take back is noted nowhere.
    of: 'hyperformula',
    since: '2026-11-26',
    what: 'undo of its own',
    file: /\/hyperformula\/es\/UndoRedo\.mjs$/,
    words: /^export class UndoRedo /m,
    put: `class Entry {}
    export {
      Entry as AddColumnsUndoEntry, Entry as AddNamedExpressionUndoEntry, Entry as AddRowsUndoEntry,
      Entry as AddSheetUndoEntry, Entry as ChangeNamedExpressionUndoEntry,
      Entry as ClearSheetUndoEntry, Entry as MoveCellsUndoEntry, Entry as MoveColumnsUndoEntry,
      Entry as MoveRowsUndoEntry, Entry as PasteUndoEntry, Entry as RemoveColumnsUndoEntry,
      Entry as RemoveNamedExpressionUndoEntry, Entry as RemoveRowsUndoEntry,
      Entry as RemoveSheetUndoEntry, Entry as RenameSheetUndoEntry,
      Entry as SetCellContentsUndoEntry, Entry as SetColumnOrderUndoEntry,
      Entry as SetRowOrderUndoEntry, Entry as SetSheetContentUndoEntry,
    };
    export class UndoRedo {
      constructor({ undoLimit }) {
        if (undoLimit !== 0) throw new Error('This build of the engine undoes nothing.');
      }
      saveOperation() {}
      beginBatchMode() {}
      commitBatchMode() {}
      storeDataForVersion() {}
      cleanupOrphanedOldData() {}
      clearRedoStack() {}
      clearUndoStack() {}
      isUndoStackEmpty() {
        return true;
      }
      isRedoStackEmpty() {
        return true;
      }
    }`,
    whole: true,
  },
  {
    // Of moist air, functions ask for vapour pressures and the dew point.
    of: 'psychrolib',
    since: '2026-11-26',
    what: 'wet bulbs, humidity ratios and dry air',
    file: /\/psychrolib\/psychrolib\.js$/,
    words: /^ {2}this\.GetTWetBulbFromHumRatio = [\s\S]*?(?=^ {2}this\.GetSatVapPres = )/m,
    put: '',
    whole: false,
  },
  {
    of: 'psychrolib',
    since: '2026-11-26',
    what: 'saturated and moist air, the atmosphere',
    file: /\/psychrolib\/psychrolib\.js$/,
    words: /^ {2}this\.GetSatHumRatio = [\s\S]*?(?=^\}\n)/m,
    put: '',
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

/**
 * Looks whether what the engine's package uses inside HyperFormula is there: where the app is, that is not
 * looked for anew (`packages/workbook/src/engine/check-late.ts`). Stops the build with the name of what is not.
 * @returns {import('vite').Plugin}
 */
export function engineChecked() {
  return {
    name: 'kerfbook-engine-checked',
    apply: 'build',
    async buildStart() {
      const { checkEngine } = await import('@kerfbook/workbook/hyperformula');
      checkEngine();
    },
  };
}

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
      const here = parts.filter(({ file }) => file.test(path));
      if (here.length === 0) return undefined;
      let left = code;
      for (const { what, words, put, whole } of here) {
        if (left.split(words).length !== 2) {
          this.error(`${id} is not made as expected: "${what}" cannot be left out. ${MEND}`);
        }
        met.add(what);
        left = whole ? put : left.replace(words, put);
      }
      return { code: left, map: null };
    },
    buildEnd(error) {
      if (error !== undefined) return;
      const missed = parts.filter(({ what }) => !met.has(what)).map(({ what }) => `"${what}"`);
      if (missed.length > 0) this.error(`No file was met for ${missed.join(', ')}. ${MEND}`);
    },
  };
}

import { type ConfigParams, HyperFormula } from 'hyperformula';
import { insideOf, type ReaderInside } from './inside.ts';

/** What reads the text of formulas: made once, and lent to every engine that reads alike. */
let shared: Pick<ReaderInside, 'lexerConfig' | 'lexer' | 'formulaParser'> | undefined;

const nobody = (): never => {
  throw new Error('A formula is read for no engine.');
};

/**
 * An engine without sheets. HyperFormula works its whole grammar out for each engine anew, most of what an
 * empty one costs; here all engines read with the first one's. They may differ in the `context` of their
 * settings alone, of which reading formulas knows nothing.
 */
export function emptyEngine(settings: Partial<ConfigParams>): HyperFormula {
  const own = shared === undefined ? undefined : idly(shared);
  try {
    const engine = HyperFormula.buildEmpty(settings);
    const { _parser: reader } = insideOf(engine);
    if (shared === undefined) {
      const { lexerConfig, lexer, formulaParser } = reader;
      shared = { lexerConfig, lexer, formulaParser };
    } else {
      Object.assign(reader, shared);
    }
    const { formulaParser } = shared;
    const { resolveSheetReference } = reader;
    const parse = reader.parse.bind(reader);
    reader.parse = (text, address) => {
      // Names of sheets are this engine's, whoever read last.
      formulaParser.resolveSheetReference = resolveSheetReference;
      try {
        return parse(text, address);
      } finally {
        // An engine that is let go of must not be held by what it has read with.
        formulaParser.resolveSheetReference = nobody;
      }
    };
    return engine;
  } finally {
    own?.();
  }
}

/** Keeps readers made from here on from working the grammar out; they do again after what is returned. */
function idly({ lexer, formulaParser }: NonNullable<typeof shared>): () => void {
  const parsers = Object.getPrototypeOf(formulaParser) as ReaderInside['formulaParser'];
  const lexers = Object.getPrototypeOf(lexer.lexer) as ReaderInside['lexer']['lexer'];
  const { performSelfAnalysis } = parsers;
  const { TRACE_INIT } = lexers;
  parsers.performSelfAnalysis = () => undefined;
  lexers.TRACE_INIT = () => undefined;
  return () => {
    parsers.performSelfAnalysis = performSelfAnalysis;
    lexers.TRACE_INIT = TRACE_INIT;
  };
}

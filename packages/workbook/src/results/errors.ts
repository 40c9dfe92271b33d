import {
  type At,
  columnName,
  explainMistake,
  FORMER_NAMES,
  isReference,
  nameKey,
  splitSheet,
  type Token,
  textOf,
  tokensOf,
} from '@kerfbook/document';
import { FORMER_FUNCTIONS, functionNames } from '@kerfbook/functions';
import type { ErrorValue, OnCircle } from '../api.ts';
import { circleText } from './circle.ts';
import { nearest } from './nearest.ts';
import { REFUSED_ENTRY, REFUSED_NAME, SAID } from './said.ts';
import { cellSentence, PERSON_MARK } from './sentences.ts';

const WORDS: Readonly<Record<string, ErrorValue['word']>> = {
  DIV_BY_ZERO: '#DIV/0!',
  NAME: '#NAME?',
  VALUE: '#VALUE!',
  NUM: '#NUM!',
  NA: '#N/A',
  CYCLE: '#CYCLE!',
  REF: '#REF!',
  SPILL: '#SPILL!',
  LIC: '#LIC!',
  ERROR: '#ERROR!',
};

/** Cells of a loop that are named one by one; a sentence with more of them is no help. */
const CHAIN = 8;

/** An error as an engine has it. */
export interface FoundError {
  /** `VALUE`, `REF` …, as HyperFormula calls them. */
  readonly type: string;
  readonly message: string;
  /** The cell it began in; none for a formula that cannot be read, which is no one's but its own. */
  readonly root?: At;
  /** It began in a name. */
  readonly inName?: true;
  /** It is told instead of several values that the cell holds. */
  readonly range?: true;
}

interface Around {
  nameOf(id: string): string;
  /** Sheets of the maker's. */
  sheetNames(): readonly string[];
  names(): readonly string[];
  /** The formula of a cell as its maker reads it. */
  formulaAt(at: At): readonly Token[] | undefined;
  /** The text that the engine was told. */
  engineFormula(at: At): string | undefined;
  /** Cells that a cell's formula uses. */
  precedents(at: At): readonly At[];
  /** What the engine says, in the maker's words. */
  inWords(says: string): string;
}

interface ReadErrorContext {
  /** The cell that shows the error; left out for a formula of its own. */
  readonly at?: At;
  readonly formula?: readonly Token[];
  /** What a cell holds: a number, words, yes or no. */
  raw(at: At): unknown;
  refused(root: At): string | undefined;
  cycle(root: At): readonly At[];
}

/** Turns an engine's errors into a word, one sentence for a person, and where it began (rule V1). */
export class ErrorReader {
  readonly #around: Around;

  constructor(around: Around) {
    this.#around = around;
  }

  read(error: FoundError, context: ReadErrorContext): ErrorValue {
    const computed = error.root ?? context.at;
    const word = WORDS[error.type] ?? '#ERROR!';
    // Words in a cell are no error of that cell; the first formula that needs a number there is.
    // A maker is led to the words.
    const words =
      error.type === 'VALUE' ? this.#wordsBehind(computed, error.message, context) : undefined;
    const root = words ?? computed;
    const { at } = context;
    const elsewhere = at !== undefined && root !== undefined && !same(root, at) ? root : undefined;
    // A sentence is said once, where it began.
    const isSaid = elsewhere !== undefined && !same(computed, at);
    const from = elsewhere === undefined ? {} : { from: elsewhere };
    if (isSaid) return { word, says: cellSentence('E30', this.#written(elsewhere)), ...from };
    const circle = error.type === 'CYCLE' ? this.#circle(computed, context) : [];
    return {
      word,
      says: this.#sentence(error, computed, context, circle),
      ...from,
      ...(circle.length === 0 ? {} : { circle }),
    };
  }

  /** Why a formula cannot be read. */
  unreadable(formula: readonly Token[]): string {
    return explainMistake(formula).says;
  }

  #sentence(
    error: FoundError,
    root: At | undefined,
    context: ReadErrorContext,
    circle: readonly OnCircle[],
  ): string {
    const { message, type } = error;
    if (message.startsWith(PERSON_MARK)) return message.slice(PERSON_MARK.length);
    if (message === REFUSED_NAME || message === REFUSED_ENTRY) {
      return (root === undefined ? undefined : context.refused(root)) ?? cellSentence('E17');
    }
    const formula = (root === undefined ? context.formula : this.#formulaOf(root)) ?? [];
    if (SAID.unreadable.test(message)) return this.unreadable(formula);
    if (SAID.wrongCount.test(message)) return cellSentence('E14');
    switch (type) {
      case 'NAME':
        return this.#unknownName(message, formula);
      case 'CYCLE':
        return cellSentence('E4', circleText(circle) || 'it leads back to itself');
      case 'REF':
        return this.#unknownSheet(formula) ?? cellSentence('E5');
      case 'DIV_BY_ZERO':
        return cellSentence('E6');
      case 'VALUE':
        return this.#wrongKind(root, context);
      case 'NUM':
        return cellSentence('E9');
      case 'NA':
        return cellSentence('E10');
      case 'SPILL':
        return cellSentence('E12');
      default:
        return cellSentence('E17');
    }
  }

  /** The first sheet that a formula names and the workbook has not. */
  #unknownSheet(formula: readonly Token[]): string | undefined {
    const known = this.#around.sheetNames();
    const keys = new Set(known.map(nameKey));
    for (const token of formula) {
      const { sheet } = isReference(token) ? splitSheet(token.value) : {};
      if (sheet === undefined || keys.has(nameKey(sheet))) continue;
      return cellSentence('E15', sheet, nearest(sheet, known));
    }
    return undefined;
  }

  #unknownName(message: string, formula: readonly Token[]): string {
    const called = SAID.noFunction.exec(message)?.[1];
    const named = called ?? SAID.noName.exec(message)?.[1];
    const word = named && this.#asTyped(named, formula);
    if (word === undefined) {
      const far = /(?<![\w.])([A-Za-z]{2,3}\d+)(?![\w(])/.exec(textOf(formula))?.[1];
      return far === undefined ? cellSentence('E17') : cellSentence('E3', far);
    }
    if (called !== undefined) {
      const now = FORMER_FUNCTIONS.get(word.toUpperCase());
      if (now !== undefined) return cellSentence('E29', word, now);
      return cellSentence('E1', word, nearest(word, functionNames()));
    }
    if (/^[A-Za-z]{1,3}\d+$/.test(word)) return cellSentence('E3', word);
    const names = this.#around.names();
    const now = FORMER_NAMES.get(nameKey(word));
    if (now !== undefined && names.some((name) => nameKey(name) === now)) {
      return cellSentence('E29', word, now);
    }
    return cellSentence('E2', word, nearest(word, names));
  }

  /** A word that the engine says, as this formula spells it: others may spell it with other capitals. */
  #asTyped(said: string, formula: readonly Token[]): string {
    const word = this.#around.inWords(said);
    if (word === said) return word;
    return formula.find(({ value }) => nameKey(value) === nameKey(word))?.value ?? word;
  }

  /** Names the cell whose words stand where a number is needed, when there is one. */
  #wrongKind(root: At | undefined, context: ReadErrorContext): string {
    if (root === undefined) return cellSentence('E8');
    const at = this.#wordsBehind(root, '', context);
    if (at === undefined) return cellSentence('E8');
    return cellSentence('E7', this.#written(at), String(context.raw(at)));
  }

  /**
   * The cell whose words stand where a number is needed. A function of ours quotes the words it
   * got; other cells may rightly hold words (a wood's name), so only the quoted one is meant.
   */
  #wordsBehind(root: At | undefined, message: string, { raw }: ReadErrorContext): At | undefined {
    if (root === undefined) return undefined;
    const quoted = message.startsWith(PERSON_MARK);
    return this.#around.precedents(root).find((at) => {
      const value = raw(at);
      return typeof value === 'string' && (!quoted || message.includes(`"${value.slice(0, 20)}`));
    });
  }

  #circle(root: At | undefined, context: ReadErrorContext): readonly OnCircle[] {
    const path = root === undefined ? [] : context.cycle(root);
    const home = root?.sheet;
    const all = path.map((at) => ({
      written: at.sheet === home ? short(at) : this.#written(at),
      at,
    }));
    return all.length > CHAIN ? [...all.slice(0, CHAIN), { written: '…' }, ...all.slice(-1)] : all;
  }

  #formulaOf(at: At): readonly Token[] | undefined {
    const formula = this.#around.formulaAt(at);
    if (formula !== undefined) return formula;
    const text = this.#around.engineFormula(at);
    return text === undefined ? undefined : tokensOf(this.#around.inWords(text));
  }

  #written(at: At): string {
    return `${this.#around.nameOf(at.sheet)}!${short(at)}`;
  }
}

const short = (at: At): string => `${columnName(at.column)}${at.row + 1}`;

function same(a: At | undefined, b: At | undefined): boolean {
  return (
    a !== undefined &&
    b !== undefined &&
    a.sheet === b.sheet &&
    a.row === b.row &&
    a.column === b.column
  );
}

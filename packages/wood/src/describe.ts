import type { Quantity } from './quantity.ts';

/** The job a maker is doing when they look for the function. */
export type Task =
  | 'Lumber'
  | 'Panel glue-up'
  | 'Wood'
  | 'Moisture and movement'
  | 'Base'
  | 'Frames and doors'
  | 'Joints'
  | 'Drawers'
  | 'Sheet goods'
  | 'Fastenings'
  | 'Strength and stability'
  | 'Angles and curves'
  | 'Finish'
  | 'Buying and cutting'
  | 'Price'
  | 'Writing lengths';

/** What a range argument brings: its cells line by line, `undefined` for an empty one. */
export type RangeArgument = readonly (number | undefined)[];

/** A column of a table that a function takes, known by the word at its head. */
export interface TableColumn {
  /** The word at its head, in lower case. */
  readonly heads: string;
  /** What its numbers are for; decides the unit they are converted from. */
  readonly quantity: Quantity;
  /** The table cannot be without it. */
  readonly needed?: true;
}

/** A row of such a table by its columns' heads: numbers in us units, words; blanks are left out. */
export type TableRow = Readonly<Record<string, number | string>>;

/** What a table argument brings: its rows that are not blank, in their order. */
export interface TableArgument {
  /** Heads of the described columns that are there. */
  readonly heads: readonly string[];
  /** Rows under the heads. */
  readonly rows: readonly TableRow[];
  /** In which units its workbook is: usual sizes differ. */
  readonly units: 'us' | 'metric';
}

/** What a function is called with: numbers in us units, words, ranges, nothing where it is left out. */
export type FunctionArgument = number | string | RangeArgument | TableArgument | undefined;

/** One value, or a column of numbers. */
export type FunctionResult = number | string | readonly number[];

/** An argument of a function, as engine, help and page read it. */
export interface ArgumentDescription {
  /** As a maker reads it in argument help: lower case, underscores. */
  readonly name: string;
  /** One line: what to put there. */
  readonly means: string;
  /**
   * `number` and `text` take just that; `either` takes both; `range` takes a range of cells, `table` one whose
   * first line heads its columns.
   */
  readonly takes: 'number' | 'text' | 'either' | 'range' | 'table';
  /** Of a table: the columns that are read. Others may stand between them. */
  readonly columns?: readonly TableColumn[];
  /** What a number stands for; decides the unit it is converted from. */
  readonly quantity: Quantity;
  /** It may be left out. */
  readonly optional?: true;
  /** What a left-out optional argument counts as, in words. */
  readonly leftOut?: string;
  /** What to do where it is needed and its cell is empty, a sentence. */
  readonly missing?: string;
  /**
   * A bare number is not taken in a metric workbook, where it could be read in two ways; what is taken
   * instead, in words.
   */
  readonly notInMetric?: string;
}

/**
 * One function a maker can type in a cell, described once. Argument help, the in-app reference,
 * `kerfbook functions` and the registration in the engine are all made from this record.
 */
export interface FunctionDescription {
  /** In capitals, as it is typed. */
  readonly name: string;
  /** What it was called in the first version of the format: files of then are brought up to date. */
  readonly formerly?: string;
  /** The job it belongs to. */
  readonly task: Task;
  /** One sentence: what question it answers. */
  readonly answers: string;
  /** In the order in which they are typed. */
  readonly args: readonly ArgumentDescription[];
  /** What it comes to. */
  readonly result: {
    readonly quantity: Quantity;
    readonly means: string;
    /** It is told in thousandths of an inch, or hundredths of a mm: a sag, a diameter. */
    readonly fine?: true;
  };
  /** Publication, table or equation; or `common practice, no source`; or `value from memory`. */
  readonly source: string;
  /** A formula that works in a us workbook without any cell. */
  readonly example: string;
  /** What else a maker should know. */
  readonly notes?: string;
  /**
   * The pure function. It takes its numbers in us units (in, in², in³, lb, °F, lbf, psi, fl oz),
   * `undefined` for a left-out optional argument, and throws {@link Fault} when it cannot answer. What an
   * argument may be is said by `args`; whoever calls holds to that.
   */
  run(...args: FunctionArgument[]): FunctionResult;
  /** Gives a column as long as its first argument, a range. */
  readonly fills?: 'column';
  /** It needs a part that is loaded after the first sheet is there. */
  readonly late?: true;
  /** It answers with a plan of boards, which may be looked for further than a cell waits. */
  readonly plans?: true;
  /** Steps a call costs (rule B1), where they are more than those of most. */
  readonly steps?: number;
}

import {
  type At,
  type BookDocument,
  BookState,
  type CellDocument,
  type FaultCode,
  formulaCells,
  formulaOf,
  type Node,
  nodesOf,
} from '@kerfbook/document';
import { JOINT_FORMS, readJointWords } from '@kerfbook/functions/joints';
import type { Figure } from '@kerfbook/wood';
import { woodsNeeded } from './readers-woods.ts';
import { FIGURES, figureIn } from './steps/figures-known.ts';

/**
 * Which parts of the program of a page for readers a workbook needs, whatever its readers choose; a text where it comes in
 * the place of a part. What a cell may come to is known where it holds words, or a formula that chooses between words; where
 * it is not, all is taken along that it could be.
 */
export function partsNeeded(document: BookDocument): (part: string) => boolean | string {
  const state = BookState.of(document);
  const wanted = new Set<string>();
  const formulas = [...state.checks, ...[...formulaCells(state)].map(({ cell }) => cell)].map(
    formulaOf,
  );
  for (const { root } of formulas) {
    for (const node of root === undefined ? [] : nodesOf(root)) {
      if (node.kind === 'call') wanted.add(`function ${node.name}`);
    }
  }
  for (const code of FAULTS) wanted.add(`fault ${code}`);
  const tables = new Tables(state, new Set(document.guide?.inputs ?? []));
  addFigures(tables, wanted);
  addJoints(tables, wanted);
  if (tables.hasSheets() || [...wanted].some((part) => part.startsWith('function SHEETS_'))) {
    wanted.add('sheets');
  }
  const woods = woodsNeeded(document);
  return (part) => {
    if (part !== 'woods') return wanted.has(part);
    // Nothing within a text may end the script element.
    return (
      woods === undefined || `(()=>${JSON.stringify(woods, toRead).replaceAll('<', '\\u003c')})`
    );
  };
}

/**
 * What is said where a cell cannot have a value, a workbook not the other units, or a formula grows too large: nothing else
 * is changed in a page, and its formulas were read before.
 */
const FAULTS: readonly (FaultCode | 'F1' | 'F2' | 'F3' | 'F5')[] = [
  'F1',
  'F2',
  'F3',
  'F5',
  'D7',
  'W2',
  'W12',
  'W13',
  'W14',
  'W15',
  'W19',
  'W20',
  'W21',
  'W22',
  'W24',
  'W25',
  'W26',
  'W29',
];

/** What is told of a figure to whoever writes a formula, and to no reader: where it comes from, and what is against it. */
const OF_FIGURES: ReadonlySet<string> = new Set([
  'how',
  'source',
  'note',
] satisfies (keyof Figure)[]);
const toRead = (key: string, value: unknown): unknown => (OF_FIGURES.has(key) ? undefined : value);

function addFigures(tables: Tables, wanted: Set<string>): void {
  for (const words of tables.wordsUnder('steps', 'figure') ?? FIGURES) {
    const kind = figureIn(words)?.kind;
    if (kind !== undefined) wanted.add(`figure ${kind}`);
    // It makes the pockets it shows, whatever the joints table has.
    if (kind === 'pocket holes') wanted.add('joint pocket holes');
  }
  // A step that says nothing of its figure has one of what it builds.
  wanted.add('figure assembly');
}

function addJoints(tables: Tables, wanted: Set<string>): void {
  const all = JOINT_FORMS.map(({ words }) => words);
  for (const words of tables.wordsUnder('joints', 'joint') ?? all) {
    const kind = readJointWords(words)?.kind;
    const form = JOINT_FORMS.find((one) => one.words === kind);
    if (form === undefined) continue;
    wanted.add(`joint ${form.words}`);
    if (form.takes !== 'two') wanted.add('joints in one part');
  }
}

/** Stock as wide as this may be sheet goods, mm: somewhat less than from where the cutting plan takes it for that. */
const SHEET = 550;

/** The tables of a workbook, read without working anything out. */
class Tables {
  readonly #state: BookState;
  /** Names of inputs that readers may change. */
  readonly #opened: ReadonlySet<string>;

  constructor(state: BookState, opened: ReadonlySet<string>) {
    this.#state = state;
    this.#opened = opened;
  }

  /** All words that cells of a table under a head may show; undefined where that is not known. */
  wordsUnder(kind: string, head: string): readonly string[] | undefined {
    const found: string[] = [];
    for (const cell of this.#cellsUnder(kind, head)) {
      const words = this.#wordsOf(cell);
      if (words === undefined) return undefined;
      found.push(...words);
    }
    return found;
  }

  /** Whether any stock may be sheet goods. */
  hasSheets(): boolean {
    const mm = this.#state.head.units === 'us' ? 25.4 : 1;
    return this.#cellsUnder('stock', 'width').some((cell) => {
      const most = this.#mostOf(cell);
      return most === undefined || most * mm >= SHEET;
    });
  }

  /** What a cell's number is at most, in its unit; undefined where that is not known. */
  #mostOf(cell: CellDocument): number | undefined {
    if (cell.override !== undefined) return undefined;
    if (cell.formula !== undefined) {
      const { root } = formulaOf(cell) ?? {};
      return root === undefined ? undefined : this.#most(root);
    }
    if (this.#isOpened(cell)) return cell.allow?.max;
    return typeof cell.value === 'number' ? cell.value : 0;
  }

  /** The same of a sum of names and lengths, which is what widths of thick stock are. */
  #most(node: Node): number | undefined {
    const isUs = this.#state.head.units === 'us';
    switch (node.kind) {
      case 'number':
        return node.value;
      case 'bracket':
        return this.#most(node.of);
      case 'name': {
        const at = this.#state.named(node.name);
        const cell = at === undefined ? undefined : this.#state.cell(at);
        return cell === undefined || cell.formula !== undefined ? undefined : this.#mostOf(cell);
      }
      case 'call': {
        const [only, more] = node.args.map((one) => this.#most(one));
        if (only === undefined || more !== undefined) return undefined;
        if (node.name === 'IN') return isUs ? only : only * 25.4;
        return node.name === 'MM' ? (isUs ? only / 25.4 : only) : undefined;
      }
      case 'joined': {
        const { left, right, sign } = node;
        const [a, b] = [this.#most(left), this.#most(right)];
        if (a === undefined || b === undefined) return undefined;
        if (sign === '+') return a + b;
        // Of two numbers alone: what is divided by a name may be divided by next to nothing.
        return sign === '/' && left.kind === 'number' && right.kind === 'number'
          ? a / b
          : undefined;
      }
      default:
        return undefined;
    }
  }

  #isOpened({ name }: CellDocument): boolean {
    return name !== undefined && this.#opened.has(name);
  }

  #wordsOf(cell: CellDocument): readonly string[] | undefined {
    if (this.#isOpened(cell) || cell.override !== undefined) return undefined;
    if (cell.formula === undefined) return typeof cell.value === 'string' ? [cell.value] : [];
    const { root } = formulaOf(cell) ?? {};
    return root === undefined ? undefined : wordsIn(root);
  }

  /** Cells below a head, further down than the table goes too: what stands there may be read with it. */
  #cellsUnder(kind: string, head: string): readonly CellDocument[] {
    return this.#state.tables.flatMap((table) => {
      const sheet = this.#state.sheet(table.sheet);
      const header = this.#state.rowIndex(table.sheet, table.header);
      if (table.kind !== kind || sheet === undefined || header === undefined) return [];
      const cell = (row: number, column: number): CellDocument | undefined =>
        this.#state.cell({ sheet: table.sheet, row, column } satisfies At);
      return sheet.columns.flatMap((_, column) => {
        const above = cell(header, column);
        const isFixed = above?.formula === undefined && typeof above?.value === 'string';
        const says = isFixed ? String(above.value).trim().toLowerCase() : undefined;
        // A head that is worked out may be any.
        if (above === undefined || (says !== undefined && says !== head)) return [];
        return Array.from({ length: sheet.rows.length - header - 1 }, (_, i) =>
          cell(header + 1 + i, column),
        ).filter((one) => one !== undefined);
      });
    });
  }
}

/** What a formula that chooses between words may come to; undefined where it may come to others. */
function wordsIn(node: Node): readonly string[] | undefined {
  if (node.kind === 'text') return [node.value];
  if (node.kind === 'bracket') return wordsIn(node.of);
  if (node.kind !== 'call' || node.name !== 'IF' || node.args.length !== 3) return undefined;
  const [yes, no] = node.args.slice(1).map(wordsIn);
  return yes === undefined || no === undefined ? undefined : [...yes, ...no];
}

import { nearNames } from '@kerfbook/wood';
import { JOINT_COLUMNS, type JointColumn } from './columns.ts';
import { type FaceWord, readFaces } from './faces.ts';
import { type JointKind, nearestJoint, partsTaken, readJointWords } from './kinds.ts';
import type { JointAt, JointProblem } from './piece.ts';
import { JOINT_SAYS } from './says.ts';

const SIZES = ['thickness', 'width', 'length', 'depth', 'diameter'] as const;
const PLACES = ['from edge', 'from end'] as const;

/** One row of the joints table; sizes in mm, left out where the row leaves them to what is usual. */
export interface Joint {
  /** The cell that says which joint it is. */
  readonly at: JointAt;
  /** Where its cells stand: what is wrong with a size is told there. */
  readonly cells: ReadonlyMap<JointColumn, JointAt>;
  /** Which joint it is. */
  readonly kind: JointKind;
  /** The screw that its words name. */
  readonly screw?: string;
  /** The part that goes in, as the parts table calls it. */
  readonly part: string;
  /** The part that it goes into; left out for a cut in one part. */
  readonly into?: string;
  /** Of a cut in one part: a face, or two that meet in the edge. */
  readonly faces?: readonly FaceWord[];
  /** Of a tenon or a tongue. */
  readonly thickness?: number;
  /** Of what is cut, along the face. */
  readonly width?: number;
  /** Of a dowel, screw, loose tenon or slot. */
  readonly length?: number;
  /** How deep it is cut. */
  readonly depth?: number;
  /** Of a dowel or a hole. */
  readonly diameter?: number;
  /** How far in from the edge it begins. */
  readonly fromEdge?: number;
  /** How far the first one is from the end. */
  readonly fromEnd?: number;
  /** How many in each place. */
  readonly count?: number;
}

/** A cell of a joints table that is not blank. */
export interface JointCellValue {
  /** The number it holds, in the workbook's own unit. */
  readonly number?: number;
  /** The words it holds. */
  readonly text?: string;
  /** The word of the error it shows. */
  readonly error?: string;
  /** As a sentence about it says what it holds. */
  readonly written: string;
}

/** A joints table as it can be read. */
export interface JointsTable {
  /** The sheet it is on. */
  readonly sheet: string;
  /** The row of its heads. */
  readonly header: number;
  /** The first row after it. */
  readonly end: number;
  /** How many columns are looked at for heads. */
  readonly columns: number;
  /** Which unit its lengths are in, and whose usual sizes are taken. */
  readonly units: 'us' | 'metric';
  /** What a cell holds; undefined where it is blank. */
  value(at: JointAt): JointCellValue | undefined;
}

/** The names of the parts that joints may go by. */
export interface JointNames {
  /** Parts that there are. */
  readonly parts: readonly { readonly name: string }[];
  /** Parts of which none are wanted. */
  readonly none: readonly string[];
  /** Parts whose own rows cannot be read, and are told there. */
  readonly leftOut: readonly { readonly what: string }[];
}

/** What a joints table says. */
export interface JointsReading {
  /** In the order of the rows that can be read. */
  readonly joints: readonly Joint[];
  /** What could not be read, each at its cell. */
  readonly problems: readonly JointProblem[];
}

type Columns = ReadonlyMap<JointColumn, number>;
type Sizes = { -readonly [K in Exclude<keyof Joint, 'at' | 'cells' | 'kind' | 'part'>]?: Joint[K] };
const KNOWN: ReadonlySet<string> = new Set(JOINT_COLUMNS);

/** Reads a joints table; a cell that cannot be read becomes one sentence at that cell. */
export function readJointsTable(table: JointsTable, parts: JointNames): JointsReading {
  const problems: JointProblem[] = [];
  const columns = headsOf(table, problems);
  const joints: Joint[] = [];
  if (!columns.has('joint') || !columns.has('part')) return { joints, problems };
  const names = new Names(parts);
  for (let row = table.header + 1; row < table.end; row++) {
    const joint = new Line(table, row, columns, problems).joint(names);
    if (joint !== undefined) joints.push(joint);
  }
  return { joints, problems };
}

function headsOf(table: JointsTable, problems: JointProblem[]): Columns {
  const { sheet, header } = table;
  const columns = new Map<JointColumn, number>();
  for (let column = 0; column < table.columns; column++) {
    const head = table.value({ sheet, row: header, column })?.text ?? '';
    const word = head.trim().toLowerCase().replaceAll(/\s+/g, ' ');
    if (!KNOWN.has(word)) continue;
    if (!columns.has(word as JointColumn)) columns.set(word as JointColumn, column);
    else {
      problems.push({
        at: { sheet, row: header, column },
        says: `The joints table has two columns headed "${word}"; the first one is used, so rename this one.`,
      });
    }
  }
  for (const word of ['joint', 'part'] as const) {
    if (columns.has(word)) continue;
    problems.push({
      at: { sheet, row: header, column: 0 },
      says: `The joints table has no column headed "${word}", so no joint is read; write "${word}" above the column that holds it.`,
    });
  }
  return columns;
}

/** The names that a joint may go by. */
class Names {
  readonly #known = new Map<string, string>();
  readonly #none: ReadonlySet<string>;
  readonly #lost: ReadonlySet<string>;

  constructor({ parts, none, leftOut }: JointNames) {
    for (const { name } of parts) this.#known.set(name.toLowerCase(), name);
    this.#none = new Set(none.map((name) => name.toLowerCase()));
    this.#lost = new Set(leftOut.map(({ what }) => what.toLowerCase()));
  }

  /** The name as the parts table has it, or a sentence; nothing where its own row is told already. */
  find(text: string): { readonly name: string } | { readonly says?: string } {
    const key = text.toLowerCase();
    const name = this.#known.get(key);
    if (name !== undefined) return { name };
    if (this.#none.has(key)) return { says: JOINT_SAYS.none(text) };
    if (this.#lost.has(key)) return {};
    return { says: JOINT_SAYS.unknown(text, nearNames(text, [...this.#known.values()], 1)[0]) };
  }
}

/** Reads the cells of one row. */
class Line {
  readonly #table: JointsTable;
  readonly #place: { readonly sheet: string; readonly row: number };
  readonly #columns: Columns;
  readonly #problems: JointProblem[];
  #isSound = true;

  constructor(table: JointsTable, row: number, columns: Columns, problems: JointProblem[]) {
    this.#table = table;
    this.#place = { sheet: table.sheet, row };
    this.#columns = columns;
    this.#problems = problems;
  }

  joint(names: Names): Joint | undefined {
    const said = this.#text('joint');
    if (said === undefined) {
      if (this.#text('part') !== undefined && this.#text('into') !== undefined) {
        this.#complain('joint', JOINT_SAYS.noJoint(this.#place.row + 1));
      }
      return undefined;
    }
    const words = readJointWords(said);
    if (words === undefined) {
      // A name with nothing else in the row is a heading that groups the joints below it.
      if (JOINT_COLUMNS.every((word) => word === 'joint' || this.#value(word) === undefined)) {
        return undefined;
      }
      return this.#complain('joint', JOINT_SAYS.unread(said, nearestJoint(said)));
    }
    const part = this.#name('part', names, JOINT_SAYS.noPart(words.kind));
    const sizes: Sizes = {};
    const into = this.#into(words.kind, part, names);
    if (into !== undefined) sizes.into = into;
    this.#faces(words.kind, part ?? '', into, sizes);
    this.#sizes(words.kind, sizes);
    const at = this.#at('joint');
    if (!this.#isSound || part === undefined || at === undefined) return undefined;
    const cells = new Map(
      [...this.#columns].map(([word, column]) => [word, { ...this.#place, column }]),
    );
    return { at, cells, ...words, part, ...sizes };
  }

  #into(kind: JointKind, part: string | undefined, names: Names): string | undefined {
    const takes = partsTaken(kind);
    const text = this.#text('into');
    if (takes === 'one') {
      if (text !== undefined) this.#complain('into', JOINT_SAYS.notOne(kind, part ?? 'it'));
      return undefined;
    }
    if (text === undefined && takes === 'one or two') return undefined;
    const into = this.#name('into', names, JOINT_SAYS.noInto(kind, part ?? 'this part'));
    if (into !== undefined && into === part) this.#complain('into', JOINT_SAYS.itself(part));
    return into;
  }

  #faces(kind: JointKind, part: string, into: string | undefined, sizes: Sizes): void {
    const text = this.#text('face');
    const needs = into === undefined && partsTaken(kind) !== 'two';
    if (text === undefined) {
      if (needs && part !== '') this.#complain('face', JOINT_SAYS.noFace(kind, part));
      return;
    }
    const faces = readFaces(text);
    if (faces === undefined) this.#complain('face', JOINT_SAYS.faceUnread(text));
    else if (needs && (kind === 'rabbet') !== (faces.length === 2)) {
      this.#complain('face', JOINT_SAYS.noFace(kind, part));
    } else sizes.faces = faces;
  }

  #sizes(kind: JointKind, sizes: Sizes): void {
    for (const word of SIZES) {
      const mm = this.#length(kind, word, `a size in ${this.#unit} above 0`, (n) => n > 0);
      if (mm !== undefined) sizes[word] = mm;
    }
    for (const word of PLACES) {
      const mm = this.#length(kind, word, `a distance in ${this.#unit}, 0 or more`, (n) => n >= 0);
      if (mm !== undefined) sizes[word === 'from edge' ? 'fromEdge' : 'fromEnd'] = mm;
    }
    const value = this.#value('count');
    if (value === undefined) return;
    const { number = 0 } = value;
    const isCount = Number.isInteger(number) && number > 0 && number <= MOST_IN_ONE;
    if (isCount) sizes.count = number;
    else this.#refuse(kind, 'count', value, `a whole number from 1 to ${MOST_IN_ONE}`);
  }

  #length(
    kind: JointKind,
    word: JointColumn,
    takes: string,
    fits: (own: number) => boolean,
  ): number | undefined {
    const value = this.#value(word);
    if (value === undefined) return undefined;
    const { number } = value;
    const mm = number !== undefined && fits(number) ? this.#mm(number) : Number.POSITIVE_INFINITY;
    if (mm <= LONGEST) return mm;
    this.#refuse(kind, word, value, takes);
    return undefined;
  }

  #name(word: 'part' | 'into', names: Names, missing: string): string | undefined {
    const text = this.#text(word);
    if (text === undefined) return this.#complain(word, missing);
    const found = names.find(text);
    if ('name' in found) return found.name;
    this.#isSound = false;
    return found.says === undefined ? undefined : this.#complain(word, found.says);
  }

  #mm(own: number): number {
    return this.#table.units === 'us' ? own * MM_PER_INCH : own;
  }

  get #unit(): string {
    return this.#table.units === 'us' ? 'inches' : 'millimeters';
  }

  #at(word: JointColumn): JointAt | undefined {
    const column = this.#columns.get(word);
    return column === undefined ? undefined : { ...this.#place, column };
  }

  #value(word: JointColumn): JointCellValue | undefined {
    const at = this.#at(word);
    return at === undefined ? undefined : this.#table.value(at);
  }

  #text(word: JointColumn): string | undefined {
    const value = this.#value(word);
    if (value === undefined) return undefined;
    if (value.text !== undefined) return value.text.trim();
    if (value.error === undefined) return value.written;
    this.#complain(word, `The ${word} shows ${value.error}; it takes words.`);
    return undefined;
  }

  #refuse(kind: JointKind, word: JointColumn, value: JointCellValue, takes: string): void {
    this.#complain(word, `The ${word} of this ${kind} is ${value.written}; it takes ${takes}.`);
  }

  #complain(word: JointColumn, says: string): undefined {
    this.#isSound = false;
    const at = this.#at(word) ?? this.#at('joint');
    // One cell says one thing: what follows from it is not told beside it.
    const isTold = this.#problems.some(
      (one) => one.at.sheet === at?.sheet && one.at.row === at.row && one.at.column === at.column,
    );
    if (at !== undefined && !isTold) this.#problems.push({ at, says });
    return undefined;
  }
}

/** Dowels, screws, fingers or tails in one place: more is a slip of the pen. */
const MOST_IN_ONE = 200;
/** Exact by definition (NIST SP 811, appendix B). */
const MM_PER_INCH = 25.4;
/** As long as a part may be, mm. */
const LONGEST = 100_000;

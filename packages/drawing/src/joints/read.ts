import { nearNames } from '@kerfbook/wood';
import type { At, CellValue } from '@kerfbook/workbook';
import type { PartsReading } from '../parts.ts';
import { endBelow, otherTables, type PartProblem, type PartsSource } from '../parts-source.ts';
import { mmFromOwn } from '../units.ts';
import { isBlank, written } from '../value-words.ts';
import { type FaceWord, readFaces } from './faces.ts';
import { type JointKind, nearestJoint, partsTaken, readJointWords } from './kinds.ts';
import { JOINT_SAYS } from './says.ts';

/** The heads of a joints table. */
export const JOINT_COLUMNS = [
  'joint',
  'part',
  'into',
  'face',
  'thickness',
  'width',
  'length',
  'depth',
  'diameter',
  'from edge',
  'from end',
  'count',
] as const;

/** A head of the joints table, in small letters with single spaces. */
export type JointColumn = (typeof JOINT_COLUMNS)[number];

const SIZES = ['thickness', 'width', 'length', 'depth', 'diameter'] as const;
const PLACES = ['from edge', 'from end'] as const;

/** One row of the joints table; sizes in mm, left out where the row leaves them to what is usual. */
export interface Joint {
  /** The cell that says which joint it is. */
  readonly at: At;
  /** Where its cells stand: what is wrong with a size is told there. */
  readonly cells: ReadonlyMap<JointColumn, At>;
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

/** What the joints table of a workbook says. */
export interface JointsReading {
  /** False: the workbook has no joints table. */
  readonly found: boolean;
  /** In the order of the rows that can be read. */
  readonly joints: readonly Joint[];
  /** What could not be read, each at its cell. */
  readonly problems: readonly PartProblem[];
}

type Columns = ReadonlyMap<JointColumn, number>;
type Sizes = { -readonly [K in Exclude<keyof Joint, 'at' | 'cells' | 'kind' | 'part'>]?: Joint[K] };
const KNOWN: ReadonlySet<string> = new Set(JOINT_COLUMNS);

/** The first joints table of a workbook; a cell that cannot be read becomes one sentence at that cell. */
export function readJoints(
  source: PartsSource,
  parts: Pick<PartsReading, 'parts' | 'none' | 'leftOut'>,
): JointsReading {
  const table = source.tables().find(({ kind }) => kind === 'joints');
  if (table === undefined) return { found: false, joints: [], problems: [] };
  const problems: PartProblem[] = [...otherTables(source, 'joints')];
  const columns = headsOf(source, table, problems);
  const joints: Joint[] = [];
  if (!columns.has('joint') || !columns.has('part')) return { found: true, joints, problems };
  const names = new Names(parts);
  const end = Math.min(table.last + 1, endBelow(source, table));
  for (let row = table.header + 1; row < end; row++) {
    const line = new Line(source, { sheet: table.sheet, row }, columns, problems);
    const joint = line.joint(names);
    if (joint !== undefined) joints.push(joint);
  }
  return { found: true, joints, problems };
}

function headsOf(
  source: PartsSource,
  { sheet, header }: { readonly sheet: string; readonly header: number },
  problems: PartProblem[],
): Columns {
  const columns = new Map<JointColumn, number>();
  const wide = source.sheet(sheet)?.columns ?? 0;
  for (let column = 0; column < wide; column++) {
    const value = source.value({ sheet, row: header, column });
    const word =
      value.kind === 'text' ? value.text.trim().toLowerCase().replaceAll(/\s+/g, ' ') : '';
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

  constructor({ parts, none, leftOut }: Pick<PartsReading, 'parts' | 'none' | 'leftOut'>) {
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
  readonly #source: PartsSource;
  readonly #place: { readonly sheet: string; readonly row: number };
  readonly #columns: Columns;
  readonly #problems: PartProblem[];
  #isSound = true;

  constructor(
    source: PartsSource,
    place: { readonly sheet: string; readonly row: number },
    columns: Columns,
    problems: PartProblem[],
  ) {
    this.#source = source;
    this.#place = place;
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
      if (JOINT_COLUMNS.every((word) => word === 'joint' || isBlank(this.#value(word)))) {
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
    if (isBlank(value)) return;
    const isCount = value.kind === 'number' && Number.isInteger(value.number) && value.number > 0;
    if (isCount && value.number <= MOST_IN_ONE) sizes.count = value.number;
    else this.#refuse(kind, 'count', value, `a whole number from 1 to ${MOST_IN_ONE}`);
  }

  #length(
    kind: JointKind,
    word: JointColumn,
    takes: string,
    fits: (own: number) => boolean,
  ): number | undefined {
    const value = this.#value(word);
    if (isBlank(value)) return undefined;
    const isSize = value.kind === 'number' && fits(value.number);
    const mm = isSize ? mmFromOwn(value.number, this.#source.units) : Number.POSITIVE_INFINITY;
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

  get #unit(): string {
    return this.#source.units === 'us' ? 'inches' : 'millimeters';
  }

  #at(word: JointColumn): At | undefined {
    const column = this.#columns.get(word);
    return column === undefined ? undefined : { ...this.#place, column };
  }

  #value(word: JointColumn): CellValue {
    const at = this.#at(word);
    return at === undefined ? { kind: 'empty' } : this.#source.value(at);
  }

  #text(word: JointColumn): string | undefined {
    const value = this.#value(word);
    if (isBlank(value)) return undefined;
    if (value.kind === 'text') return value.text.trim();
    if (value.kind !== 'error') return written(value);
    this.#complain(word, `The ${word} shows ${value.error.word}; it takes words.`);
    return undefined;
  }

  #refuse(kind: JointKind, word: JointColumn, value: CellValue, takes: string): void {
    this.#complain(word, `The ${word} of this ${kind} is ${written(value)}; it takes ${takes}.`);
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
/** As long as a part may be, mm. */
const LONGEST = 100_000;

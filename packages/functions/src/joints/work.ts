import type { Cut, Length } from '@kerfbook/solids';
import { Fault, faultSentence } from '@kerfbook/wood';
import type { JointColumn } from './columns.ts';
import type { Hardware } from './hardware.ts';
import type { JointProblem, Piece } from './piece.ts';
import type { Joint } from './read.ts';
import type { Face, Span, Stand } from './stand.ts';

/** One cut that a joint makes in a piece. */
export interface JointCut {
  /** In the piece's own frame. */
  readonly cut: Cut;
  /** What it is called on the bench. */
  readonly what: string;
  /** The row it comes from. */
  readonly joint: Joint;
  /** The face it is cut into; of a tenon the end it is on. */
  readonly face: Face;
  /** What it takes, or of a tenon what it leaves, as a box in the piece's own frame. */
  readonly box: Span;
  /** The part on the other side; left out for a cut in one part. */
  readonly other?: string;
  /** What else the bench has to know of it, such as the angle of its shoulders. */
  readonly note?: string;
}

/** What joints come to for the pieces of a scene. */
export interface JointWork {
  /** Cuts by the index of the piece. */
  readonly cuts: ReadonlyMap<number, readonly JointCut[]>;
  /** Pieces by the index of one that they are joined to. */
  readonly joined: ReadonlyMap<number, ReadonlySet<number>>;
  /** Joints that could be made nowhere. */
  readonly unmade: ReadonlySet<Joint>;
  /** What is to be bought or made for them, each size once. */
  readonly hardware: readonly Hardware[];
  /** What is wrong with them, each at its row; the rest is worked out all the same. */
  readonly problems: readonly JointProblem[];
}

/** What joints are worked out with. */
export interface JointOptions {
  /** Writes a length given in mm, as the workbook writes lengths. */
  readonly format: Length;
  /** Whose usual sizes are taken. */
  readonly units: 'us' | 'metric';
}

/** Collects what joints come to. */
export class Desk {
  readonly format: Length;
  readonly units: 'us' | 'metric';
  readonly pieces: readonly Piece[];
  readonly cuts = new Map<number, JointCut[]>();
  readonly hardware = new Map<string, Hardware>();
  readonly problems: JointProblem[] = [];
  readonly #told = new Set<string>();
  readonly #joined = new Map<number, Set<number>>();
  readonly #unmade = new Set<Joint>();
  #made = 0;

  constructor(pieces: readonly Piece[], { format, units }: JointOptions) {
    this.pieces = pieces;
    this.format = format;
    this.units = units;
  }

  /** Makes a joint in one place; where it comes to something, the pieces are joined. */
  join(joint: Joint, stands: readonly Stand[], make: () => void): void {
    const before = this.#made;
    make();
    if (this.#made === before) return;
    this.#unmade.delete(joint);
    for (const { index } of stands) {
      const known = this.#joined.get(index) ?? new Set();
      this.#joined.set(index, known);
      for (const other of stands) if (other.index !== index) known.add(other.index);
    }
  }

  /** Begins with a joint: until it is made somewhere it is not. */
  begin(joint: Joint): void {
    this.#unmade.add(joint);
  }

  cut(stand: Stand, one: JointCut): void {
    this.#made += 1;
    const known = this.cuts.get(stand.index);
    if (known === undefined) this.cuts.set(stand.index, [one]);
    else known.push(one);
  }

  buy(one: Hardware): void {
    const key = JSON.stringify({ ...one, count: 0 });
    const known = this.hardware.get(key);
    this.hardware.set(key, known === undefined ? one : { ...one, count: known.count + one.count });
  }

  /** Says something of a joint, once for all its places: at the cell of a column, else where the row begins. */
  say(joint: Joint, says: string, column: JointColumn = 'joint'): void {
    const at = joint.cells.get(column) ?? joint.at;
    const key = `${at.sheet} ${at.row} ${at.column} ${says}`;
    if (this.#told.has(key)) return;
    this.#told.add(key);
    this.problems.push({ at, says });
  }

  /** What a rule of the trade comes to; where it cannot answer, its sentence at the row and nothing. */
  usual(joint: Joint, rule: () => number): number | undefined {
    try {
      return rule();
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      this.say(joint, sentence(faultSentence(error.detail, this.units)));
      return undefined;
    }
  }

  done(): JointWork {
    const [joined, unmade] = [this.#joined, this.#unmade];
    return {
      cuts: this.cuts,
      joined,
      unmade,
      hardware: [...this.hardware.values()],
      problems: this.problems,
    };
  }
}

const sentence = (text: string): string =>
  `${text.charAt(0).toUpperCase()}${text.slice(1).replaceAll('_', ' ')}`;

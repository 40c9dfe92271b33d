import { Watched } from '@kerfbook/keeping';
import type { At } from '@kerfbook/workbook';
import type { Selection } from './area.ts';
import type {
  Block,
  Busy,
  Comparing,
  Editing,
  MenuState,
  Offer,
  PartTrouble,
  Pulling,
  Question,
} from './types.ts';

export interface SessionState {
  readonly at: At;
  /** What is selected where that is more than the current cell. */
  readonly selection?: Selection;
  readonly editing?: Editing;
  /** Cells copied or cut last, until they have moved or Escape is pressed. */
  readonly block?: Block;
  /** Grows with every change of the workbook. */
  readonly changes: number;
  /** Grows when rows, columns, sheets or names changed. */
  readonly structures: number;
  /** Where the menu of the selected cells stands open, in the window. */
  readonly menu?: MenuState;
  /** Cells show their formulas instead of what those come to (G35). */
  readonly formulas?: boolean;
  /** A question about what was just done, answered with one press or not at all. */
  readonly offer?: Offer;
  /** A dialog about what is selected. */
  readonly asked?: Question;
  /** Cells that stand otherwise in another workbook bear a mark. */
  readonly comparing?: Comparing;
  /** Something long that is being put in. */
  readonly busy?: Busy;
  /** What follows from the last change has been worked out for longer than one notices. */
  readonly working?: true;
  /** Cells that rest on a plan which is not proven yet, by `keyOfCell`. */
  readonly proving?: ReadonlyMap<string, At>;
  /** What is wrong with places in words and with shapes, by `keyOfCell`. */
  readonly partTroubles?: ReadonlyMap<string, PartTrouble>;
  /** A check that was asked for last, to be brought into sight; another object each time. */
  readonly check?: { readonly id: string };
  /** The pad for numbers is at hand: the device's own keyboard stays down. */
  readonly pad?: true;
  /** A number that is being pulled: nothing is kept until it is let go. */
  readonly pulling?: Pulling;
  /** A sentence about what was refused. */
  readonly refused?: string;
  /** What a screen reader is told after an edit. */
  readonly announcement: string;
}

/** What is there only for a while. */
type Passing = Exclude<
  keyof SessionState,
  'at' | 'changes' | 'structures' | 'announcement' | 'formulas'
>;

/** How things stand in a session, to be watched: every room reads it and changes its own part of it. */
export class Standing {
  readonly state: Watched<SessionState>;

  constructor(at: At) {
    this.state = new Watched<SessionState>({ at, changes: 0, structures: 0, announcement: '' });
  }

  get now(): SessionState {
    return this.state.value;
  }

  set(changed: Partial<SessionState>): void {
    this.state.set({ ...this.state.value, ...changed });
  }

  clear(...keys: Passing[]): void {
    const next: Record<string, unknown> = { ...this.state.value };
    for (const one of keys) delete next[one];
    this.state.set(next as unknown as SessionState);
  }
}

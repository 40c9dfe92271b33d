import {
  type At,
  type BookState,
  type CellDocument,
  CHECKS_SHEET,
  type Change,
  type Formula,
  formulaOf,
  type Node,
  nameKey,
  type Step,
} from '@kerfbook/document';
import { refusedEntry } from '../book/held.ts';
import type { Differing, Onward, Pace } from '../port.ts';
import { BUDGET } from '../results/meter.ts';
import { person } from '../results/sentences.ts';
import type { Compiled, Here } from './around.ts';
import type { Closure } from './closure.ts';
import { compile, workOf } from './compile.ts';
import { costOf } from './cost.ts';
import { refusedFormula } from './fixed.ts';
import { Follower } from './follower.ts';
import { computedIn, heldIn } from './held.ts';
import { withoutThose } from './lists.ts';
import { NotCompiled } from './not-compiled.ts';
import { NODE } from './program.ts';
import { namedBy, standingIn } from './standing.ts';
import { tellCompiled, tellingPace } from './telling.ts';
import { Failure, refusedAt, type Value } from './values.ts';
import { usesOf, World } from './world.ts';

/** A formula of a workbook and what became of it. */
export interface Entry {
  readonly slot: number;
  readonly home: string;
  readonly formula: Formula;
  compiled?: true;
  /** Why it is not compiled: a word that stands in it. */
  left?: string;
  /** What it comes to whatever cells hold: it is refused, cannot be read, or is left to others. */
  given?: Value;
  /** Keys of the names it asks for. */
  names: readonly string[];
  cost: number;
}

/** A formula that is not compiled, with the word for what it is about. */
export interface LeftOut {
  readonly at: At;
  readonly slot: number;
  readonly word: string;
  readonly readable: boolean;
}

/**
 * The formulas of a workbook compiled, each by itself, with the values of its cells. It follows changes:
 * what a change does not touch is not compiled again.
 */
export class CompiledBook {
  readonly world = new World(() => this.#state);
  readonly follower = new Follower(this.world.program, this.world.frame);
  /** Formulas by the nodes of their cells. */
  readonly entries = new Map<number, Entry>();
  /** Those that are not compiled. */
  readonly left = new Set<number>();
  #state: BookState;
  /** Formulas to be compiled, again or for the first time. */
  readonly #dirty = new Set<number>();
  readonly #usersOfNames = new Map<string, Set<number>>();
  /** Formulas that are refused, cannot be read or are left: for where their cells stand, among other things. */
  readonly #given = new Set<number>();
  /** Formulas that name what is not there. */
  readonly #gone = new Set<number>();
  /** Formulas that look at where cells stand, and those that look at what is written in them. */
  readonly #shaped = new Set<number>();
  readonly #content = new Set<number>();
  /** Formulas that come to something else each time: they are worked out with every change. */
  readonly #changing = new Set<number>();
  /** Formulas whose functions look in own tables. */
  readonly #looking = new Set<number>();
  /** Cells that were changed by hand or put in a loop, beside those that the follower tells of. */
  #changed: number[] = [];
  #inLoop: ReadonlyMap<number, readonly Entry[]> = new Map();
  /** Formulas that were left to another engine since all was put in order. */
  #left: Entry[] = [];
  #cost = 0;

  /** What follows from the cells is still to be worked out ({@link workOut}): what costs too much need not be. */
  constructor(state: BookState, onward?: Onward) {
    this.#state = state;
    this.world.program.makeWork = (slot) => this.#makeWork(slot);
    for (const sheet of state.sheets) {
      this.world.places.take(sheet);
      this.#readSheet(sheet.id);
    }
    this.#takeChecks([]);
    this.settle(onward);
  }

  /** Works all formulas out, of which none has a value before: the second half of opening them. */
  workOut(onward?: Onward): void {
    this.follower.follow(tellingPace(onward, this.world.program.count));
    this.#changed = [];
  }

  get state(): BookState {
    return this.#state;
  }

  /** At least what all formulas cost together (rule B2). */
  get cost(): number {
    return this.#cost + this.world.rangeCells;
  }

  /** All is compiled that is looked at so far, and does not cost too much together. */
  get isWhole(): boolean {
    return this.left.size === 0 && this.cost <= BUDGET.together;
  }

  /** Formulas that are not compiled, in the order of the workbook. */
  leftOut(): readonly LeftOut[] {
    const sheets = new Map(this.#state.sheets.map(({ id }, at) => [id, at]));
    const order = (at: At): number => sheets.get(at.sheet) ?? sheets.size;
    return [...this.left]
      .flatMap((slot) => {
        const [at, entry] = [this.placeOf(slot), this.entries.get(slot)];
        if (at === undefined || entry === undefined) return [];
        const readable = entry.formula.root !== undefined;
        return [{ at, slot, word: entry.left ?? '', readable }];
      })
      .sort(
        (a, b) => order(a.at) - order(b.at) || a.at.row - b.at.row || a.at.column - b.at.column,
      );
  }

  get pending(): boolean {
    return this.follower.pending;
  }

  valueOf(slot: number): Value {
    return this.world.frame.get(slot);
  }

  slotOf(at: At): number | undefined {
    return this.world.places.nodeAt(at);
  }

  placeOf(slot: number): At | undefined {
    return this.world.places.at(slot);
  }

  /**
   * Follows changes, and works out what follows as far as the pace allows; the values that differ.
   */
  follow(steps: readonly Step[], pace?: Pace): Differing {
    for (const step of steps) {
      this.#state = step.after;
      this.#step(step);
    }
    this.settle();
    for (const slot of this.#changing) {
      if (!this.#inLoop.has(slot)) this.follower.makeDue(slot);
    }
    return this.goOn(pace);
  }

  /** What finally rests on cells, these among them. */
  restingOn(slots: Iterable<number>): Differing {
    const found = new Set(slots);
    const { start, end, to } = this.world.program.users;
    for (const node of found) {
      for (let i = start[node] ?? 0; i < (end[node] ?? 0); i += 1) found.add(to[i] as number);
    }
    return this.world.places.differing([...found], []);
  }

  goOn(pace?: Pace): Differing {
    const followed = this.follower.follow(pace);
    const changed = this.#changed;
    this.#changed = [];
    return this.world.places.differing(withoutThose(changed, followed), followed);
  }

  #step({ change, before, after }: Step): void {
    for (const slot of change.change === 'cells' ? this.#content : this.#shaped) {
      this.#dirty.add(slot);
    }
    if (change.change === 'cells') this.#cells(change, before);
    else if (change.change !== 'head') this.#list(change, before, after);
  }

  #cells({ sheet, cells }: Change & { readonly change: 'cells' }, before: BookState): void {
    const was = before.sheet(sheet);
    for (const { row, column, cell } of cells) {
      const old = was?.rows[was.rowIndex(row) ?? -1]?.cells.get(column);
      this.#put(sheet, row, column, old, cell ?? undefined);
    }
  }

  /** A cell holds something else. */
  #put(
    sheet: string,
    row: string,
    column: string,
    old: CellDocument | undefined,
    cell: CellDocument | undefined,
  ): void {
    if (old?.name !== cell?.name) {
      for (const name of [old?.name, cell?.name]) if (name !== undefined) this.#renamed(name);
    }
    const [line, of] = [
      this.world.places.line(sheet, row),
      this.world.places.column(sheet, column),
    ];
    if (line === undefined || of === undefined) return;
    const known = line.nodes[of.number];
    if (known === undefined && cell?.formula === undefined && heldIn(cell) === null) return;
    const slot = known ?? this.world.node(line, of);
    const text = computedIn(cell);
    if (text === undefined) {
      this.#forget(slot);
      this.#set(slot, this.#held(cell, slot));
    } else if (text !== computedIn(old) || !this.entries.has(slot)) {
      this.#enter(slot, sheet, formulaOf(cell as Held));
    }
  }

  #renamed(name: string): void {
    for (const user of this.#usersOfNames.get(nameKey(name)) ?? []) this.#dirty.add(user);
  }

  #enter(slot: number, home: string, formula: Formula): void {
    this.#forget(slot);
    this.entries.set(slot, { slot, home, formula, names: [], cost: 0 });
    this.#dirty.add(slot);
    // A formula that is new has no value until it is worked out; it may be gone before that.
    this.follower.set(slot, null);
  }

  /** A cell has no formula any more. */
  #forget(slot: number): void {
    const entry = this.entries.get(slot);
    if (entry === undefined) return;
    this.#unlist(entry);
    this.entries.delete(slot);
    this.#dirty.delete(slot);
    this.world.next.set(slot, []);
    this.#worksBy(slot, undefined);
  }

  #unlist(entry: Entry): void {
    for (const name of entry.names) this.#usersOfNames.get(name)?.delete(entry.slot);
    this.#gone.delete(entry.slot);
    this.#looking.delete(entry.slot);
    this.#given.delete(entry.slot);
    this.#shaped.delete(entry.slot);
    this.#content.delete(entry.slot);
    this.#changing.delete(entry.slot);
    this.left.delete(entry.slot);
    this.#cost -= entry.cost;
    entry.cost = 0;
    entry.names = [];
  }

  /** What a cell holds by hand, or the error that it is where it may not be computed with (rule N4). */
  #held(cell: CellDocument | undefined, slot: number): Value {
    const refused = cell && refusedEntry(cell, this.#state.head);
    return refused === undefined ? heldIn(cell) : refusedAt(slot, refused);
  }

  /** A cell without a formula holds this from now on; what follows from that is for {@link goOn}. */
  hold(slot: number, value: Value): void {
    this.#set(slot, value);
  }

  #set(slot: number, value: Value): void {
    if (this.follower.set(slot, value)) this.#changed.push(slot);
  }

  #list(
    change: Exclude<Change, { readonly change: 'cells' | 'head' }>,
    before: BookState,
    after: BookState,
  ): void {
    switch (change.list) {
      case 'rows':
      case 'columns':
        if (change.change === 'set') return;
        this.#lines(change.sheet, change.change === 'order');
        if (change.change === 'insert' && change.list === 'rows') {
          for (const { id, cells } of change.items) {
            for (const [column, cell] of Object.entries(cells ?? {})) {
              this.#put(change.sheet, id, column, undefined, cell);
            }
          }
        }
        break;
      case 'sheets':
        if (change.change === 'insert') for (const { id } of change.items) this.#newSheet(id);
        else if (change.change === 'remove') for (const id of change.ids) this.#sheetGone(id);
        else return;
        break;
      case 'checks':
        this.#takeChecks(before.checks);
        return;
      case 'tables':
        break;
    }
    for (const slot of this.#given) this.#dirty.add(slot);
    for (const slot of this.#gone) this.#dirty.add(slot);
    if (before.tables.length > 0 || after.tables.length > 0) {
      for (const slot of this.#looking) this.#dirty.add(slot);
    }
    for (const [key, { name }] of before.homes) if (!after.homes.has(key)) this.#renamed(name);
    for (const [key, { name }] of after.homes) if (!before.homes.has(key)) this.#renamed(name);
  }

  #lines(id: string, changedPlaces: boolean): void {
    const sheet = this.#state.sheet(id);
    if (sheet === undefined) return;
    this.#cellsGone(this.world.places.take(sheet));
    for (const node of this.world.reshape(id, changedPlaces)) this.#usersDirty(node);
  }

  #newSheet(id: string): void {
    const sheet = this.#state.sheet(id);
    if (sheet === undefined) return;
    this.world.places.take(sheet);
    this.#readSheet(id);
  }

  #sheetGone(id: string): void {
    this.#cellsGone(this.world.places.drop(id));
    for (const node of this.world.dropRanges(id)) this.#usersDirty(node);
  }

  #cellsGone(slots: readonly number[]): void {
    for (const slot of slots) {
      this.#forget(slot);
      this.#usersDirty(slot);
      this.follower.set(slot, null);
    }
  }

  #usersDirty(node: number): void {
    const { start, end, to } = this.world.program.users;
    for (let i = start[node] ?? 0; i < (end[node] ?? 0); i += 1) {
      const user = to[i] as number;
      if (this.entries.has(user)) this.#dirty.add(user);
    }
  }

  #readSheet(id: string): void {
    const sheet = this.#state.sheet(id);
    const { places } = this.world;
    for (const row of sheet?.rows ?? []) {
      const line = places.line(id, row.id);
      if (line === undefined || row.cells.size === 0) continue;
      for (const { id: columnId } of sheet?.columns ?? []) {
        const cell = row.cells.get(columnId);
        const column = places.column(id, columnId);
        if (cell === undefined || column === undefined) continue;
        if (cell.formula === undefined || cell.override !== undefined) {
          if (heldIn(cell) === null) continue;
          const slot = this.world.node(line, column);
          this.#set(slot, this.#held(cell, slot));
        } else {
          const slot = this.world.node(line, column);
          this.#enter(slot, id, formulaOf(cell as Held));
        }
      }
    }
  }

  #takeChecks(before: BookState['checks']): void {
    const { places } = this.world;
    const { checks } = this.#state;
    this.#cellsGone(places.takeChecks(checks));
    const column = places.column(CHECKS_SHEET, '');
    const formulas = new Map(before.map(({ id, formula }) => [id, formula]));
    for (const check of checks) {
      const { id, formula } = check;
      const line = places.line(CHECKS_SHEET, id);
      if (line === undefined || column === undefined) continue;
      const slot = this.world.node(line, column);
      if (this.entries.has(slot) && formulas.get(id) === formula) continue;
      this.#enter(slot, CHECKS_SHEET, formulaOf(check));
    }
  }

  /**
   * Leaves a formula to another engine, which gives it a value and knows what it uses. A cell without a
   * formula may hold results of one.
   */
  leave(slot: number, word: string, value: Value, uses: readonly number[]): void {
    const at = this.placeOf(slot);
    const entry = this.entries.get(slot) ?? {
      slot,
      home: at?.sheet ?? '',
      formula: NOTHING,
      names: [],
      cost: 0,
    };
    this.entries.set(slot, entry);
    this.#leave(entry, word, value, uses);
    this.#left.push(entry);
  }

  /** Compiles what is to be compiled, and puts all in order; what follows is due then. */
  settle(onward?: Onward): void {
    const { program, next } = this.world;
    if (this.#dirty.size === 0 && next.size === 0) return;
    const compiled = [...this.#compileDirty(onward), ...this.#left];
    this.#left = [];
    const relaid = program.settle(next);
    next.clear();
    this.follower.programChanged();
    if (relaid) this.#findLoops(compiled);
    for (const node of this.world.due.splice(0)) this.follower.makeDue(node);
    for (const entry of compiled) this.#makeDue(entry);
  }

  #compileDirty(onward?: Onward): readonly Entry[] {
    const compiled: Entry[] = [];
    for (const slot of this.#dirty) {
      tellCompiled(onward, compiled.length, this.#dirty.size, !this.isWhole);
      const entry = this.entries.get(slot);
      if (entry === undefined) continue;
      this.#compile(entry);
      compiled.push(entry);
    }
    this.#dirty.clear();
    return compiled;
  }

  #compile(entry: Entry): void {
    this.#unlist(entry);
    const { world } = this;
    const { slot, home, formula } = entry;
    const asked = { names: new Set<string>(), gone: false };
    world.asked = asked;
    for (const of of ['compiled', 'left', 'given'] as const) delete entry[of];
    this.#worksBy(slot, undefined);
    if (World.looks(formula)) this.#looking.add(slot);
    try {
      const refused = refusedFormula(formula, home, this.#state, slot);
      if (refused === undefined) this.#compileRoot(entry);
      else this.#give(entry, refused);
    } catch (reason) {
      if (!(reason instanceof NotCompiled)) throw reason;
      this.#leave(entry, reason.message, new Failure('ERROR', person('E21'), slot), []);
    }
    if (entry.compiled === undefined) this.#given.add(slot);
    if (asked.gone) this.#gone.add(slot);
    if (asked.names.size === 0) return;
    entry.names = [...asked.names];
    for (const name of entry.names) {
      const users = this.#usersOfNames.get(name);
      if (users === undefined) this.#usersOfNames.set(name, new Set([slot]));
      else users.add(slot);
    }
  }

  /** A formula comes to this whatever cells hold. */
  #give(entry: Entry, value: Value): void {
    entry.given = value;
    this.world.next.set(entry.slot, []);
  }

  #leave(entry: Entry, word: string, value: Value, uses: readonly number[]): void {
    delete entry.compiled;
    this.#worksBy(entry.slot, undefined);
    entry.left = word;
    entry.given = value;
    this.left.add(entry.slot);
    this.world.next.set(entry.slot, uses);
  }

  #compileRoot(entry: Entry): void {
    const { slot, home, formula } = entry;
    const { root } = formula;
    if (root === undefined) throw new NotCompiled('what cannot be read');
    const around = this.world.around(home);
    const own = this.world.own(formula, home);
    const compiled = compile(root, around, own, this.#here(entry));
    entry.compiled = true;
    this.#worksBy(slot, compiled);
    this.world.next.set(slot, usesOf(compiled));
    if (compiled.looksAt !== undefined) this.#shaped.add(slot);
    if (compiled.looksAt === 'content') this.#content.add(slot);
    if (compiled.changes) this.#changing.add(slot);
    entry.cost = costOf(root, (reference) => {
      const range = around.range(reference);
      if (typeof range === 'string') return undefined;
      return { columns: range.width, rows: range.cells.length / range.width };
    });
    for (const { area } of own) entry.cost += 2 * area.cells.length;
    this.#cost += entry.cost;
  }

  #here({ slot, home }: Entry): Here {
    const at = this.placeOf(slot) ?? { sheet: home, row: 0, column: 0 };
    return {
      standing: standingIn(this.#state, at),
      named: (reference) => namedBy(reference, home, this.#state),
    };
  }

  #worksBy(slot: number, compiled: Compiled | undefined): void {
    this.world.program.worksBy(slot, compiled?.work, compiled?.fast);
  }

  /** What works a formula of numbers out where one is none. */
  #makeWork(slot: number): Closure {
    const entry = this.entries.get(slot) as Entry;
    const { home, formula } = entry;
    const work = workOf(formula.root as Node, this.world.around(home), [], this.#here(entry));
    this.world.program.work[slot] = work;
    return work;
  }

  #makeDue(entry: Entry): void {
    const { slot, compiled, given = null } = entry;
    if (this.#inLoop.has(slot)) return;
    if (compiled === undefined) this.#set(slot, given);
    else this.follower.makeDue(slot);
  }

  /** Finds what lies in loops now, and what no longer does. */
  #findLoops(compiled: readonly Entry[]): void {
    const before = this.#inLoop;
    const now = this.#loops();
    if (now.size === 0 && before.size === 0) return;
    this.#inLoop = now;
    this.#renameLoops();
    const fresh = new Set(compiled);
    const { program } = this.world;
    for (const slot of before.keys()) program.kind[slot] = NODE.cell;
    for (const [slot, members] of now) {
      program.kind[slot] = NODE.looped;
      // The way round that is told is another only where one of its formulas is.
      const was = before.get(slot);
      const isSame = was !== undefined && members.every((one, i) => one.slot === was[i]?.slot);
      if (isSame && was.length === members.length && !members.some((one) => fresh.has(one)))
        continue;
      this.#set(slot, new Failure('CYCLE', '', slot));
    }
    for (const slot of before.keys()) {
      const entry = this.entries.get(slot);
      if (!now.has(slot) && entry !== undefined && !fresh.has(entry)) this.#makeDue(entry);
    }
  }

  /** The formulas of the loop that each one lies in, where it lies in one. */
  #loops(): ReadonlyMap<number, readonly Entry[]> {
    const { program } = this.world;
    const inLoop = new Map<number, readonly Entry[]>();
    if (program.loops === 0) return inLoop;
    const loops = new Map<number, Entry[]>();
    for (const entry of this.entries.values()) {
      const loop = program.loop[entry.slot] as number;
      if (loop === 0 || entry.compiled === undefined) continue;
      const members = loops.get(loop) ?? [];
      loops.set(loop, members);
      members.push(entry);
      inLoop.set(entry.slot, members);
    }
    for (const members of loops.values()) members.sort((a, b) => a.slot - b.slot);
    return inLoop;
  }

  /** A name whose cell lies in a loop with a formula that uses it is part of the loop. */
  #renameLoops(): void {
    const { program, looped: before } = this.world;
    const looped = new Set<string>();
    for (const slot of this.#inLoop.keys()) {
      for (const name of this.entries.get(slot)?.names ?? []) {
        const home = this.#state.homes.get(name);
        const line = home && this.world.places.line(home.sheet, home.row);
        const column = home && this.world.places.column(home.sheet, home.column);
        const target = column === undefined ? undefined : line?.nodes[column.number];
        if (target !== undefined && program.loop[target] === program.loop[slot]) looped.add(name);
      }
    }
    this.world.looped = looped;
    for (const name of new Set([...before, ...looped])) {
      if (before.has(name) === looped.has(name)) continue;
      for (const user of [...(this.#usersOfNames.get(name) ?? [])]) {
        const entry = this.entries.get(user);
        if (entry === undefined) continue;
        this.#compile(entry);
        this.#makeDue(entry);
      }
    }
    this.world.next.clear();
  }
}

type Held = CellDocument & { readonly formula: string };
const NOTHING: Formula = { tokens: [], root: undefined };

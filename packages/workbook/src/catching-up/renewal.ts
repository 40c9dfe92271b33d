import {
  type At,
  type BookDocument,
  type CellDocument,
  type Meeting,
  type Merged,
  type Spot,
  settled,
  spotKey,
  type ToSettle,
  type Which,
} from '@kerfbook/document';
import type { OpenWorkbook, Refused } from '../api.ts';
import { Workbook } from '../workbook.ts';
import { type InStep, inStep, notKin, unlocked } from './in-step.ts';
import {
  calledIn,
  checkText,
  entryText,
  type Listed,
  lineOf,
  listed,
  memberName,
  propertyText,
  stateOf,
  traitText,
} from './listed.ts';
import { aboutWords, headTitle, MEMBERS, say, TRAITS } from './said.ts';
import { statesToSettle } from './states.ts';
import { type PartRows, partRows, type Weighed, weighed, withUnit } from './weighed.ts';

/** A place that both changed, in words. */
export interface Met {
  /** The same for the same place, to keep a choice by. */
  readonly key: string;
  /** Where it is, by ids. */
  readonly spot: Spot;
  /** The sheet it is on; `''` for the workbook as a whole. */
  readonly sheet: string;
  /** What it is: `Price per seat (C12)`. */
  readonly what: string;
  /** What stands there in the workbook. */
  readonly mine: Side;
  /** In the template as it is now. */
  readonly theirs: Side;
  /** In what both have in common. */
  readonly base: Side;
  /** Where it stands in the workbook at hand. */
  readonly at?: At;
  /** Kind of change, for choosing all of one kind. */
  readonly kind: 'entry' | 'name' | 'words' | 'look' | 'other';
}

/** What stands at a place in one workbook. */
export interface Side {
  /** As it was typed or set. */
  readonly entry: string;
  /** What a formula comes to there. */
  readonly comes: string;
}

/** Which of both was chosen, by the keys of places. */
export type Choices = ReadonlyMap<string, Which>;

const NAMES = { mine: 'your workbook', theirs: 'the template' };

/**
 * What a later state of a template brings to a workbook that came of it (rules H9, H10). Nothing is changed by it; what
 * each choice would do is read off states that the engine worked out.
 */
export class Renewal {
  /** Places that both changed, in the order of sheets. */
  readonly met: readonly Met[];
  /** What the template changed and the workbook did not. */
  readonly taken: readonly Listed[];
  /** What only the workbook changed. */
  readonly kept: readonly Listed[];
  readonly #toSettle: ToSettle;
  readonly #weigher: Workbook;
  readonly #mine: Workbook;
  readonly #parts: PartRows;

  private constructor(toSettle: ToSettle, first: Merged) {
    this.#toSettle = toSettle;
    const [base, mine, theirs] = [toSettle.base, toSettle.mine, toSettle.theirs].map((document) =>
      Workbook.open(unlocked(document)),
    ) as [Workbook, Workbook, Workbook];
    this.#mine = mine;
    this.met = metIn(first, { base, mine, theirs });
    const allMine = new Map(this.met.map(({ key }) => [key, 'mine'] as const));
    const settled = this.settle(allMine);
    this.#weigher = Workbook.open(unlocked(settled.ok ? settled.document : toSettle.mine));
    this.taken = listed({ before: mine, after: this.#weigher });
    const places = new Set(this.met.map(({ what, sheet }) => `${sheet} ${what}`));
    // Beside its template, what a workbook is called is its own from the start.
    const isOwn = ({ kind, what }: Listed): boolean =>
      toSettle.names === NAMES && kind === 'workbook' && what === headTitle('title');
    this.kept = listed({ before: base, after: mine }).filter(
      (one) => !places.has(`${one.sheet} ${one.what}`) && !isOwn(one),
    );
    this.#parts = partRows(mine);
  }

  /**
   * Refused in a sentence where the two are no relatives, or may not be put together.
   * @param names what sentences call the two
   */
  static of(
    base: BookDocument,
    theirs: BookDocument,
    mine: BookDocument,
    names: Readonly<Record<'mine' | 'theirs', string>> = NAMES,
  ):
    | { readonly ok: true; readonly renewal: Renewal }
    | { readonly ok: false; readonly says: string } {
    const says = notKin(base, theirs) ?? notKin(base, mine);
    if (says !== undefined) return { ok: false, says };
    const step: InStep | Refused = inStep(base, theirs, mine);
    return step.ok ? Renewal.#made({ ...step, names }) : step;
  }

  /**
   * The same of two states of one workbook, as two devices have it: what each says of itself is merged too.
   * @param names what sentences call each
   */
  static ofStates(
    base: BookDocument,
    theirs: BookDocument,
    mine: BookDocument,
    names: ToSettle['names'],
  ): ReturnType<typeof Renewal.of> {
    const toSettle = statesToSettle(base, theirs, mine, names);
    return toSettle.ok ? Renewal.#made(toSettle) : toSettle;
  }

  static #made({ base, mine, theirs, names }: ToSettle): ReturnType<typeof Renewal.of> {
    const toSettle = { base, mine, theirs, names };
    const first = settled(toSettle);
    return first.ok ? { ok: true, renewal: new Renewal(toSettle, first) } : first;
  }

  /** The workbook with these choices; where none is made at a place, the workbook's own stands. */
  settle(choices: Choices): Merged | Refused {
    const all = this.met.map(({ key, spot }) => ({ spot, which: choices.get(key) ?? 'mine' }));
    return settled(this.#toSettle, all);
  }

  /** What is told of a workbook with these choices beside the places that were chosen about. */
  told(choices: Choices): readonly string[] {
    const done = this.settle(choices);
    return done.ok ? done.conflicts.map(({ says }) => says) : [done.says];
  }

  /** What the workbook comes to with these choices. `about`: the place that is looked at. */
  weigh(choices: Choices, about?: Met): Weighed | { readonly says: string } {
    const done = this.settle(choices);
    if (!done.ok) return { says: done.says };
    const book = this.#weigher;
    const become = book.apply({ do: 'become', book: unlocked(done.document) });
    if (!become.ok) return { says: become.says };
    return weighed(book, this.#parts, about === undefined ? '' : comesTo(book, about.spot));
  }

  /** The workbook at hand as it is, weighed alike. */
  now(): Weighed {
    return weighed(this.#mine, this.#parts);
  }
}

function comesTo(book: OpenWorkbook, spot: Spot): string {
  if (spot.of !== 'cell') return '';
  const at = book.placeOf(spot);
  return at === undefined ? '' : withUnit(book, at);
}

interface Three {
  readonly base: OpenWorkbook;
  readonly mine: OpenWorkbook;
  readonly theirs: OpenWorkbook;
}

function metIn({ conflicts }: Merged, three: Three): readonly Met[] {
  const documents = {
    base: three.base.document(),
    mine: three.mine.document(),
    theirs: three.theirs.document(),
  };
  const seen = new Map<string, Met>();
  for (const { spot } of conflicts as readonly Partial<Meeting>[]) {
    if (spot === undefined || seen.has(spotKey(spot))) continue;
    seen.set(spotKey(spot), metAt(spot, three, documents));
  }
  return [...seen.values()];
}

type Documents = Readonly<Record<keyof Three, BookDocument>>;

function metAt(spot: Spot, three: Three, documents: Documents): Met {
  const base = { book: three.base, document: documents.base };
  const side = (which: keyof Three): Side => {
    const one = { book: three[which], document: documents[which] };
    const said = sideOf(spot, one, base);
    const kind = spot.of === 'cell' && spot.part === 'held' ? kindOfCell(spot, documents) : '';
    if (kind === '' || spot.of !== 'cell') return said;
    const own = traitText('quantity', cellIn(spot, one.document));
    return { ...said, entry: `${said.entry}, kind: ${own === '' ? 'none' : own}` };
  };
  const at = placeOf(spot, three);
  return {
    key: spotKey(spot),
    spot,
    ...wordsOf(spot, three, documents),
    kind: kindOf(spot),
    base: side('base'),
    mine: side('mine'),
    theirs: side('theirs'),
    ...(at === undefined ? {} : { at }),
  };
}

function kindOf(spot: Spot): Met['kind'] {
  if (spot.of === 'cell') {
    if (spot.part === 'held') return 'entry';
    if (spot.part === 'name') return 'name';
    return spot.part === 'remark' ? 'words' : 'look';
  }
  if (spot.of === 'about' && spot.in.list === 'checks') return 'words';
  return 'other';
}

function placeOf(spot: Spot, { mine }: Three): At | undefined {
  if (spot.of === 'cell') return mine.placeOf(spot);
  if (spot.of === 'head' || !('sheet' in spot.in)) return undefined;
  const { sheet } = spot.in;
  const view = mine.sheet(sheet);
  for (let row = 0; spot.in.list === 'rows' && row < (view?.rows ?? 0); row += 1) {
    if (mine.idsAt({ sheet, row, column: 0 })?.row === spot.id) return { sheet, row, column: 0 };
  }
  return undefined;
}

function wordsOf(
  spot: Spot,
  { mine, theirs }: Three,
  documents: Documents,
): { readonly sheet: string; readonly what: string } {
  const nameOf = (id: string): string =>
    [documents.mine, documents.theirs, documents.base]
      .flatMap(({ sheets }) => sheets)
      .find((sheet) => sheet.id === id)?.name ?? id;
  if (spot.of === 'cell') {
    const [at, there] = [mine.placeOf(spot), theirs.placeOf(spot)];
    const called =
      at === undefined
        ? there === undefined
          ? 'A cell'
          : calledIn(theirs, there)
        : calledIn(mine, at);
    const more = spot.part === 'held' ? '' : `, ${TRAITS[spot.part]}`;
    return { sheet: nameOf(spot.sheet), what: `${called}${more}` };
  }
  if (spot.of === 'head') return { sheet: '', what: headTitle(spot.key) };
  const sheet = 'sheet' in spot.in ? nameOf(spot.in.sheet) : '';
  const from = memberIn(spot, documents.mine) === undefined ? documents.theirs : documents.mine;
  const what = `${MEMBERS[spot.in.list][0]} ${memberName(stateOf(from), spot.in, spot.id)}`;
  return { sheet, what: spot.of === 'about' ? `${what}, ${aboutWords(spot.key)}` : what };
}

type Group = Readonly<Record<string, unknown>>;
type OfMember = Spot & { readonly of: 'about' | 'gone' };

function memberIn({ in: of, id }: OfMember, document: BookDocument): Group | undefined {
  const home = 'sheet' in of ? document.sheets.find((sheet) => sheet.id === of.sheet) : document;
  const list = (home as unknown as Readonly<Record<string, readonly Group[]>> | undefined)?.[
    of.list
  ];
  return list?.find((one) => one.id === id);
}

const cellIn = (
  spot: Spot & { readonly of: 'cell' },
  { sheets }: BookDocument,
): CellDocument | undefined =>
  sheets.find(({ id }) => id === spot.sheet)?.rows.find(({ id }) => id === spot.row)?.cells?.[
    spot.column
  ];

/** Whether the kinds of a cell differ: then both are told. */
function kindOfCell(spot: Spot & { readonly of: 'cell' }, { mine, theirs }: Documents): string {
  const [one, other] = [mine, theirs].map((document) => cellIn(spot, document)?.quantity);
  return one === other ? '' : 'differs';
}

interface OneOf {
  readonly book: OpenWorkbook;
  readonly document: BookDocument;
}

function sideOf(spot: Spot, { book, document }: OneOf, base: OneOf): Side {
  if (spot.of === 'head')
    return { entry: say(document[spot.key as keyof BookDocument]), comes: '' };
  if (spot.of !== 'cell') {
    if (memberIn(spot, document) === undefined) return { entry: 'removed', comes: '' };
    const entry =
      spot.of === 'about'
        ? propertyText(book, stateOf(document), spot.in, spot.id, spot.key)
        : wholeText(spot, { book, document }, base);
    return { entry, comes: '' };
  }
  const at = book.placeOf(spot);
  if (at === undefined) return { entry: '', comes: '' };
  if (spot.part !== 'held')
    return { entry: traitText(spot.part, cellIn(spot, document)), comes: '' };
  const { entry } = book.cell(at);
  return {
    entry: entry.startsWith('=') ? entry : entryText(book, at),
    comes: withUnit(book, at),
  };
}

/** All of what one side removed and the other one changed: it is lost as a whole or stays as a whole. */
function wholeText({ in: of, id }: OfMember, { book, document }: OneOf, base: OneOf): string {
  const state = stateOf(document);
  switch (of.list) {
    case 'rows':
      return lineOf(book, of.sheet, { row: state.rowIndex(of.sheet, id) ?? 0 }).text;
    case 'columns':
      return lineOf(book, of.sheet, { column: state.columnIndex(of.sheet, id) ?? 0 }).text;
    case 'checks':
      return checkText(book, id);
    case 'tables':
      return memberName(state, of, id);
    case 'sheets': {
      const name = state.sheetName(id);
      const all = listed({ before: base.book, after: book }).filter(({ sheet }) => sheet === name);
      return all.map(({ what, after }) => `${what}: ${after === '' ? 'empty' : after}`).join('; ');
    }
  }
}

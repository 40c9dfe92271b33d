import { type BookDocument, type Spot, saveText, statesTogether } from '@kerfbook/workbook';
import { baseKey } from '../bases.ts';
import type { Bookcase } from '../bookcase.ts';
import { newBookId } from '../new-id.ts';
import { type BookRecord, KEPT } from '../records.ts';
import {
  beginning,
  type Following,
  followingOf,
  followingValues,
  letStatesGo,
} from './following.ts';
import { type Hand, handOf, type TakeIn } from './hands.ts';
import { packed, type ReadState, readState, readText } from './packing.ts';
import type { AnswerOfBook, BooksPort, ListedAtClub, PersonAtClub, StateAtClub } from './port.ts';
import type { Standing } from './standing.ts';
import { codeOf, refusesIt, whySays } from './trouble.ts';

/** What sentences call the two that are put together. */
export const NAMES = { mine: 'the workbook here', theirs: "the club's" };

/** What a workbook and the club's state of it, both changed, are put together from. */
export interface Meeting {
  readonly base: BookDocument;
  readonly theirs: ReadState;
  /** Places that both changed. */
  readonly spots: readonly Spot[];
  /** Who made the club's state, on which device, when. */
  readonly by: PersonAtClub;
  readonly device: string;
  readonly at: number;
  /** The workbook follows so once it is settled. */
  readonly next: Following;
  /** Number of the last edit of the workbook here that was looked at. */
  readonly revision: number;
  /** What the club answered. */
  readonly answer: AnswerOfBook;
}

/** What bringing one workbook in step with the club needs. */
export interface Desk {
  readonly bookcase: Bookcase;
  readonly port: BooksPort;
  readonly me: { readonly id: string };
  /** What others call this device: `tablet`. */
  readonly device: string;
  readonly takeIn: TakeIn;
  readonly meetings: Map<string, Meeting>;
  /** Shown while it goes on. */
  show(id: string, standing: Standing): void;
}

const HERE = { kind: 'here' } as const;
/** More than this in one go means that others write without a pause: the next look goes on. */
const MOST_TURNS = 4;

/**
 * Brings one workbook in step with the club: what is new there comes in, what is new here is sent. Nothing where
 * another tab writes it.
 */
export async function inStepWithClub(desk: Desk, id: string): Promise<Standing | undefined> {
  for (let turn = 0; turn < MOST_TURNS; turn += 1) {
    const one = await followingOf(desk.bookcase.store, id);
    if (one === undefined) return HERE;
    const done = one.head === 0 ? await begun(desk, id, one) : await turned(desk, id, one);
    if (done !== 'again') return done;
  }
  return { kind: 'unsent', changes: 1 };
}

type Turn = Standing | undefined | 'again';

async function turned(desk: Desk, id: string, one: Following): Promise<Turn> {
  const meeting = desk.meetings.get(id);
  const known = meeting?.next.head ?? one.head;
  let answer: AnswerOfBook;
  try {
    answer = await desk.port.book(one.at, known);
  } catch (error) {
    if (codeOf(error) !== 'notThere') throw error;
    return goneAtClub(desk, id, one);
  }
  const isStill = meeting !== undefined && meeting.answer.book.head === answer.book.head;
  const { state, book } = isStill ? meeting.answer : answer;
  // It must not go back: a club that was put back from a copy has lost states that are here.
  if (book.head < one.head) return { kind: 'refused', says: CLUB_WENT_BACK };
  if (state === undefined) return sendNews(desk, id, one);
  const since = await whatLanded(desk, id, one, { book }, state);
  return comeIn(desk, id, since, { book, state }, state);
}

const CLUB_WENT_BACK =
  'The club has an older state of this workbook than this device: it was put back from a copy. Nothing here was changed. Stop following, then give it to the club again.';

/** Keeps what follows from now on, and takes out what it no longer rests on. */
export async function keepFollowing(
  { bookcase: { store } }: Desk,
  id: string,
  before: Following | undefined,
  next: Following | undefined,
  texts?: ReadonlyMap<string, string>,
): Promise<void> {
  await store.setAll(followingValues(id, before, next, texts));
  await letStatesGo(store, before, next);
}

/** Of states that were sent without hearing the answer, the one that the club took is what both have in common. */
async function whatLanded(
  desk: Desk,
  id: string,
  one: Following,
  { book }: AnswerOfBook,
  state: StateAtClub,
): Promise<Following> {
  if (one.sent.length === 0) return one;
  const states = one.sent.includes(state.sign)
    ? [{ number: book.head, sign: state.sign }]
    : await desk.port.states(one.at);
  const landed = states.find(({ number, sign }) => number > one.head && one.sent.includes(sign));
  // Nothing else can be taken on top of a state that is not the last any more.
  const { number: head, sign } = landed ?? { number: one.head, sign: one.sign };
  const next: Following = { ...one, head, sign, revision: -1, sent: [] };
  await keepFollowing(desk, id, one, next);
  return next;
}

async function goneAtClub(desk: Desk, id: string, one: Following): Promise<Standing> {
  // Another member's: he will find it when he signs in here.
  if (one.member !== desk.me.id) return HERE;
  await keepFollowing(desk, id, one, undefined);
  desk.meetings.delete(id);
  const says =
    'The club does not have this workbook for you any more. It stays on this device and no longer follows.';
  desk.bookcase.notice(`${await calledHere(desk, id)}: ${says}`);
  return { kind: 'here', says };
}

async function calledHere({ bookcase }: Desk, id: string): Promise<string> {
  if (id === bookcase.current.id) return `"${bookcase.current.book.title}"`;
  const kept = await bookcase.store.read(id);
  return kept === undefined ? 'A workbook' : `"${kept.record.title}"`;
}

async function handOrStanding(
  desk: Desk,
  id: string,
): Promise<{ readonly hand: Hand } | { readonly standing: Standing | undefined }> {
  const hand = await handOf(desk.bookcase, id, desk.takeIn);
  if (hand === undefined) return { standing: undefined };
  return 'says' in hand ? { standing: { kind: 'refused', says: hand.says } } : { hand };
}

/** A state of the club comes into the workbook. */
async function comeIn(
  desk: Desk,
  id: string,
  one: Following,
  { book }: AnswerOfBook,
  state: StateAtClub,
): Promise<Turn> {
  const held = await handOrStanding(desk, id);
  if ('standing' in held) return held.standing;
  const { hand } = held;
  const met = desk.meetings.get(id);
  const isStill = met !== undefined && met.next.head === book.head;
  if (isStill && met.revision === hand.revision) {
    return { kind: 'meeting', places: placesIn(met.spots) };
  }
  const theirs = isStill ? met.theirs : await readState(state);
  if (!theirs.ok) return { kind: 'refused', says: theirs.says };
  const { by, device, at } = state;
  const next: Following = {
    ...one,
    owner: book.owner.id,
    head: book.head,
    sign: state.sign,
    sent: [],
    by: { name: by.name, device, at },
  };
  const said = `Brought in what ${whose(desk, by, device)} changed.`;
  const kept = one.sign === '' ? undefined : await desk.bookcase.store.get(baseKey(one.sign));
  const base = typeof kept === 'string' ? readText(kept) : undefined;
  if (hand.text === theirs.saved || (base?.ok === true && hand.text === base.saved)) {
    return takenIn(desk, id, one, next, theirs, hand, theirs.document, said);
  }
  if (base?.ok !== true) return keptAside(desk, id, one, next, theirs);
  const together = statesTogether(base.document, theirs.document, hand.document, NAMES);
  if (!together.ok) return { kind: 'refused', says: together.says };
  const spots = together.conflicts.flatMap(({ spot }) => (spot === undefined ? [] : [spot]));
  if (spots.length > 0) {
    const { revision } = hand;
    const answer = { book, state };
    const more = { by, device, at, next, revision, answer };
    desk.meetings.set(id, { base: base.document, theirs, spots, ...more });
    return { kind: 'meeting', places: placesIn(spots) };
  }
  const done = await takenIn(desk, id, one, next, theirs, hand, together.document, said);
  if (done === 'again') tell(desk, hand.title, together.conflicts);
  return done;
}

const placesIn = (spots: readonly Spot[]): number =>
  new Set(spots.map((spot) => JSON.stringify(spot))).size;

/** What does not stand as it was meant is told, though nobody has to choose about it. */
export function tell(
  { bookcase }: Desk,
  title: string,
  conflicts: readonly { readonly says: string }[],
): void {
  const says = [...new Set(conflicts.map((one) => one.says))];
  if (says.length > 0)
    bookcase.notice(`"${title}" was changed here and at the club. ${says.join(' ')}`);
}

/** `Ada`; `you, on tablet,` of what the same member did elsewhere. */
const whose = ({ me }: Desk, by: PersonAtClub, device: string): string =>
  by.id === me.id ? `you, on ${device},` : by.name;

/** Makes the workbook what came of both, and goes on from there. */
export async function takenIn(
  desk: Desk,
  id: string,
  one: Following,
  next: Following,
  theirs: ReadState,
  hand: Hand,
  document: BookDocument,
  said: string,
): Promise<Turn> {
  const texts = new Map([[next.sign, theirs.text]]);
  const isTheirs = saveText(document) === theirs.saved;
  const became = await hand.become(document, said, (revision) => {
    // Where more is in it than in the club's, it is to be sent.
    const holds = { ...next, revision: isTheirs ? revision : -1 };
    return followingValues(id, one, holds, texts);
  });
  if (!became.ok) {
    if (became.why === 'refused') return { kind: 'refused', says: became.says };
    return { kind: 'unsent', changes: 1 };
  }
  desk.meetings.delete(id);
  await letStatesGo(desk.bookcase.store, one, next);
  return 'again';
}

const LOST = 'What both had in common is no longer on this device';

/** The club's state becomes a workbook of its own, which follows; the one here stays as it is. */
async function keptAside(
  desk: Desk,
  id: string,
  one: Following,
  next: Following,
  theirs: ReadState,
): Promise<Standing> {
  const { store } = desk.bookcase;
  const now = desk.bookcase.now();
  const other = newBookId();
  const title = `${theirs.document.title} (from the club)`;
  const follows = { ...next, revision: 0 };
  const record: BookRecord = {
    id: other,
    title,
    origin: { kind: 'own', from: '' },
    created: now,
    updated: now,
    revision: 0,
    kept: KEPT,
    text: theirs.saved,
  };
  await store.put(
    record,
    new Map([
      ...followingValues(id, one, undefined),
      ...followingValues(other, undefined, follows, new Map([[next.sign, theirs.text]])),
    ]),
  );
  await letStatesGo(store, one, undefined);
  desk.meetings.delete(id);
  const says = `${LOST}: what the club has is kept as "${title}" and follows. This one stays on this device as it is.`;
  desk.bookcase.notice(`${await calledHere(desk, id)}: ${says}`, 'in list');
  return { kind: 'here', says };
}

/** Sends what was changed here, where something was. */
async function sendNews(desk: Desk, id: string, one: Following): Promise<Turn> {
  const { current, revision } = desk.bookcase;
  // So it is at nearly every look: nothing is read for it.
  if (id === current.id && current.access === 'write' && revision === one.revision) {
    return { kind: 'inStep' };
  }
  const held = await handOrStanding(desk, id);
  if ('standing' in held) return held.standing;
  const { hand } = held;
  if (hand.revision === one.revision) return { kind: 'inStep' };
  const kept = await desk.bookcase.store.get(baseKey(one.sign));
  const base = typeof kept === 'string' ? readText(kept) : undefined;
  if (base?.ok === true && base.saved === hand.text) {
    await keepFollowing(desk, id, one, { ...one, revision: hand.revision });
    return { kind: 'inStep' };
  }
  const changes = one.revision < 0 ? 1 : Math.max(1, hand.revision - one.revision);
  // What is not on the device yet is not sent: it would be missing here after a power cut, as if it had been taken back.
  if (!(await hand.written())) return { kind: 'unsent', changes };
  const pack = await packed(hand.text);
  if (!pack.ok) return { kind: 'refused', says: pack.says };
  const { text, sign } = pack;
  if (one.refused?.sign === sign) return { kind: 'refused', says: one.refused.says };
  const { refused: _before, ...rest } = one;
  const sending: Following = { ...rest, sent: [...new Set([...one.sent, sign])] };
  await keepFollowing(desk, id, one, sending, new Map([[sign, text]]));
  desk.show(id, { kind: 'sending' });
  const title = titleOf(hand);
  const { device } = desk;
  const state = { parent: one.head, title, text: pack.packed, sign, device, changes };
  try {
    const head = await desk.port.add(one.at, state);
    const next: Following = { ...rest, head, sign, sent: [], revision: hand.revision };
    await keepFollowing(desk, id, sending, next);
    return { kind: 'inStep' };
  } catch (error) {
    if (codeOf(error) === 'changed') return 'again';
    if (!refusesIt(error)) throw error;
    const says = whySays(error);
    await keepFollowing(desk, id, sending, { ...one, refused: { sign, says } });
    return { kind: 'refused', says };
  }
}

/** A workbook that is to be kept at the club, and of which the club has not said yet that it has it. */
async function begun(desk: Desk, id: string, one: Following): Promise<Turn> {
  if (one.member !== desk.me.id) return HERE;
  const there = await answerOrNone(desk, one);
  if (there?.state !== undefined) {
    const since = await whatLanded(desk, id, one, there, there.state);
    if (since.head > 0) return 'again';
    return comeIn(desk, id, since, there, there.state);
  }
  const held = await handOrStanding(desk, id);
  if ('standing' in held) return held.standing;
  const { hand } = held;
  if (!(await hand.written())) return { kind: 'unsent', changes: 1 };
  const pack = await packed(hand.text);
  if (!pack.ok) return { kind: 'refused', says: pack.says };
  const { text, sign } = pack;
  const sending: Following = { ...one, sent: [...new Set([...one.sent, sign])] };
  await keepFollowing(desk, id, one, sending, new Map([[sign, text]]));
  desk.show(id, { kind: 'sending' });
  const book = { id: one.at, title: titleOf(hand), text: pack.packed, sign, device: desk.device };
  try {
    const head = await desk.port.keep(book);
    const next: Following = { ...one, head, sign, sent: [], revision: hand.revision };
    await keepFollowing(desk, id, sending, next);
    return { kind: 'inStep' };
  } catch (error) {
    if (codeOf(error) === 'changed') return 'again';
    if (!refusesIt(error)) throw error;
    // Nothing of it is at the club: it is only here, as before.
    await keepFollowing(desk, id, sending, undefined);
    return { kind: 'refused', says: whySays(error) };
  }
}

async function answerOrNone(desk: Desk, one: Following): Promise<AnswerOfBook | undefined> {
  // Nothing was sent yet that could be there, but for a workbook that came from there once.
  try {
    return await desk.port.book(one.at);
  } catch (error) {
    if (codeOf(error) === 'notThere') return undefined;
    throw error;
  }
}

const LONGEST_TITLE = 200;

/** A title as the club takes it: on one line. */
function titleOf({ title }: Hand): string {
  const line = title.replaceAll(/[\p{Cc}\u2028\u2029]+/gu, ' ').slice(0, LONGEST_TITLE);
  return line.trim() === '' ? 'Untitled' : line;
}

/** Makes a workbook of the club that this device has not: it is listed at once, and opens without a network. */
export async function takenFromClub(
  desk: Desk,
  listed: ListedAtClub,
  id: string,
): Promise<boolean> {
  const { state, book } = await desk.port.book(listed.id);
  if (state === undefined) return false;
  const theirs = await readState(state);
  if (!theirs.ok) {
    desk.bookcase.notice(`"${listed.title}" was not brought here. ${theirs.says}`);
    return false;
  }
  const { by, device, at } = state;
  const follows: Following = {
    ...beginning(listed.id, desk.me.id),
    owner: book.owner.id,
    head: book.head,
    sign: state.sign,
    revision: 0,
    by: { name: by.name, device, at },
  };
  const record: BookRecord = {
    id,
    title: theirs.document.title,
    origin: { kind: 'own', from: '' },
    created: desk.bookcase.now(),
    updated: book.changed,
    revision: 0,
    kept: KEPT,
    text: theirs.saved,
  };
  const texts = new Map([[state.sign, theirs.text]]);
  await desk.bookcase.store.put(record, followingValues(id, undefined, follows, texts));
  return true;
}

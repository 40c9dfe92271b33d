import { type Choices, Renewal } from '@kerfbook/workbook';
import { DONE, type Done, notDone } from '../bookcase-state.ts';
import { writeTrouble } from '../trouble.ts';
import { Versions } from '../version-list.ts';
import { followingOf } from './following.ts';
import { handOf } from './hands.ts';
import type { PersonAtClub } from './port.ts';
import { type Desk, NAMES, takenIn, tell } from './round.ts';

/** What the maker chooses about, with all that a dialog shows of it. */
export interface MeetingHere {
  /** Places that both changed, what would come in and what stays, and what each choice would do. */
  readonly renewal: Renewal;
  /** Who made the club's state last. */
  readonly by: PersonAtClub;
  /** On which device. */
  readonly device: string;
  /** When, ms since 1970. */
  readonly at: number;
  /** Number of the club's state: it is settled with this one, or looked at once more. */
  readonly head: number;
}

const NOTHING = 'There is nothing to choose about any more.';
const LATER =
  'This workbook is in the midst of a change, or open elsewhere. Try again in a moment.';

/** What of a workbook is to be chosen about now; nothing is changed by it. */
export async function meetingHere(
  desk: Desk,
  id: string,
): Promise<MeetingHere | { readonly says: string }> {
  const meeting = desk.meetings.get(id);
  if (meeting === undefined) return { says: NOTHING };
  const hand = await handOf(desk.bookcase, id, desk.takeIn);
  if (hand === undefined) return { says: LATER };
  if ('says' in hand) return hand;
  const { base, theirs, by, device, at, next } = meeting;
  const found = Renewal.ofStates(base, theirs.document, hand.document, NAMES);
  return found.ok
    ? { renewal: found.renewal, by, device, at, head: next.head }
    : { says: found.says };
}

/** Brings in what the club has, with a choice at each place that both changed. What was here before is kept as a version. */
export async function settleMeeting(
  desk: Desk,
  id: string,
  choices: Choices,
  head?: number,
): Promise<Done> {
  const { bookcase, meetings } = desk;
  const meeting = meetings.get(id);
  const one = await followingOf(bookcase.store, id);
  if (meeting === undefined || one === undefined) return notDone(NOTHING);
  // Nothing is chosen that was not shown.
  if (head !== undefined && head !== meeting.next.head) {
    return notDone(`${meeting.by.name} changed it again meanwhile. Look once more.`);
  }
  const hand = await handOf(bookcase, id, desk.takeIn);
  if (hand === undefined) return notDone(LATER);
  if ('says' in hand) return notDone(hand.says);
  const { base, theirs, by, next } = meeting;
  const found = Renewal.ofStates(base, theirs.document, hand.document, NAMES);
  if (!found.ok) return notDone(found.says);
  const open = found.renewal.met.filter(({ key }) => !choices.has(key)).length;
  if (open > 0) {
    const places = open === 1 ? '1 more place was' : `${open} more places were`;
    return notDone(`${places} changed by both meanwhile. Choose there too.`);
  }
  const done = found.renewal.settle(choices);
  if (!done.ok) return notDone(done.says);
  try {
    const versions = new Versions(bookcase.store, id, bookcase.now);
    await versions.keep(hand.text, `Before what ${by.name} changed came in`);
    const said = `Brought in what ${by.name} changed, as you chose.`;
    const came = await takenIn(desk, id, one, next, theirs, hand, done.document, said);
    if (came !== 'again') return notDone(came?.kind === 'refused' ? came.says : LATER);
  } catch (error) {
    return notDone(`Nothing was sent: ${writeTrouble(error)}`);
  }
  tell(desk, hand.title, done.conflicts);
  return DONE;
}

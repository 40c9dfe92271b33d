import { type Bookcase, Watched, writeTrouble } from '@kerfbook/keeping';
import { booksAt, ClubBooks } from '@kerfbook/keeping/club';
import { followed } from '../page/club-books.ts';
import { deviceName, named } from './device.ts';
import { club, lookHere, type Me } from './here.ts';
import { type AtHand, takeInAtHand } from './taking-in.ts';

/** Who was signed in last: without a network his workbooks go on being his. */
const WHO = 'club-me';
/** How often the club is asked about a workbook that is looked at, ms. */
const SOON = 1_500;
/** And otherwise. */
const NOW_AND_THEN = 30_000;

type Who = Pick<Me, 'id' | 'name'>;

/** The workbook on the page, into which what comes from the club is drawn. */
export const atHand: AtHand = {};

/** The maker looks at what both changed in the workbook at hand. */
export const lookingAtMeeting = new Watched(false);

function offeredLocks(): LockManager | undefined {
  try {
    return navigator.locks ?? undefined;
  } catch {
    return undefined;
  }
}

const isSeen = (): boolean => document.visibilityState === 'visible';

/** Has the workbooks of this device follow whoever is signed in at the club, until it is stopped. */
export function startFollowing(bookcase: Bookcase): () => void {
  const { store } = bookcase;
  let turn = 0;
  let unwatch = (): void => undefined;
  let looking = false;
  let lookedAt = 0;
  let isTold = false;

  const look = async (all?: 'all'): Promise<void> => {
    const { books } = followed.value ?? {};
    if (books === undefined || (looking && all === undefined)) return;
    looking = true;
    try {
      await books.look(all);
    } catch (error) {
      if (!isTold) bookcase.notice(`Not in step with the club: ${writeTrouble(error)}`);
      isTold = true;
    } finally {
      looking = false;
      lookedAt = Date.now();
    }
  };
  const tick = setInterval(() => {
    const { books } = followed.value ?? {};
    const follows = books?.standing(bookcase.current.id).kind !== 'here';
    const wait = follows && isSeen() ? SOON : NOW_AND_THEN;
    if (Date.now() - lookedAt >= wait) void look();
  }, SOON);

  const leave = (): void => {
    unwatch();
    unwatch = () => undefined;
    followed.value?.books.stop();
    followed.set(undefined);
  };
  const begin = (me: Who, device: string): void => {
    const books = new ClubBooks({
      bookcase,
      port: booksAt({ base: '' }),
      me,
      device,
      locks: offeredLocks(),
      takeIn: takeInAtHand(bookcase, atHand),
    });
    unwatch = books.state.watch(() => {
      const { signedOut, away } = books.state.value;
      const { is } = club.value;
      // The page asks once more who is signed in, where the club says otherwise than the page knows.
      if (signedOut === true && is === 'here') void lookHere('again');
      if (away === undefined && is === 'away' && lookedAt > 0) void lookHere('again');
    });
    followed.set({ books, me, device });
    void look('all').then(async () => {
      if (followed.value?.books === books && books.state.value.away === undefined) {
        await books.takeFromClub();
      }
    });
  };
  const heard = async (): Promise<void> => {
    turn += 1;
    const mine = turn;
    const state = club.value;
    if (state.is === 'asking') return;
    const who = state.is === 'here' ? state.here.me : await lastMember(bookcase);
    const device = await deviceName(store);
    if (state.is === 'here') {
      const { id, name } = state.here.me ?? {};
      const kept = id === undefined ? undefined : { id, name };
      await store.set(WHO, kept).catch(() => undefined);
    }
    if (mine !== turn) return;
    const { me, device: before } = followed.value ?? {};
    if (who?.id === me?.id && (who === undefined || device === before)) return;
    leave();
    if (who !== undefined) begin(who, device);
  };
  const unclub = club.watch(() => void heard());
  const unnamed = named.watch(() => void heard());
  const back = (): void => {
    if (club.value.is === 'away') void lookHere('again');
    void look('all');
  };
  const seen = (): void => {
    if (isSeen()) void look('all');
  };
  window.addEventListener('online', back);
  document.addEventListener('visibilitychange', seen);
  void lookHere();
  void heard();
  return () => {
    turn += 1;
    clearInterval(tick);
    unclub();
    unnamed();
    window.removeEventListener('online', back);
    document.removeEventListener('visibilitychange', seen);
    leave();
  };
}

async function lastMember({ store }: Bookcase): Promise<Who | undefined> {
  const kept = await store.get(WHO).catch(() => undefined);
  const { id, name } = (kept ?? {}) as Partial<Who>;
  return typeof id === 'string' && typeof name === 'string' ? { id, name } : undefined;
}

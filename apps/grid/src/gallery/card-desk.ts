import type { Bookcase, BookHead } from '@kerfbook/keeping';
import { fileCopy, keepCard, keptCards, keptPicture } from '@kerfbook/keeping/shelf';
import type { CardTold } from './card-worker.ts';
import type { OwnCard, OwnDrawnCard } from './drawn-card.ts';

/** Grows when cards say or draw something else than before: those that are kept are made anew. */
const MADE = 3;

/**
 * Has the cards of a maker's own workbooks: those that are kept, and those it makes in a worker, one after the other,
 * what is looked at first. Each is kept for the next time.
 */
export class CardDesk {
  readonly #bookcase: Bookcase;
  readonly #cards = new Map<string, OwnCard>();
  /** The moments of the changes that they hold for. */
  readonly #moments = new Map<string, number>();
  readonly #watchers = new Set<() => void>();
  /** What was asked for, by the workbook and the moment of its last change. */
  readonly #asked = new Map<string, Promise<OwnDrawnCard>>();
  readonly #waiting: { readonly asked: string; readonly work: () => Promise<void> }[] = [];
  #busy = false;
  #worker: Worker | undefined;
  #closed = false;
  #kept: ReturnType<typeof keptCards>;
  #version = 0;

  constructor(bookcase: Bookcase) {
    this.#bookcase = bookcase;
    this.#kept = keptCards(bookcase.store).catch(() => new Map());
    void this.#kept.then((kept) => {
      for (const [id, { card, made, updated }] of kept) {
        if (made !== MADE) continue;
        this.#cards.set(id, card as OwnCard);
        this.#moments.set(id, updated);
      }
      this.#told();
    });
  }

  /** What is known of a workbook so far, perhaps of before its last change. */
  card(id: string): OwnCard | undefined {
    return this.#cards.get(id);
  }

  /** Whether what is known of a workbook holds for its last change. */
  isOfNow({ id, updated }: BookHead): boolean {
    return this.#moments.get(id) === updated;
  }

  /** Calls back whenever more is known. */
  readonly watch = (watcher: () => void): (() => void) => {
    this.#watchers.add(watcher);
    return () => this.#watchers.delete(watcher);
  };

  /** Another number whenever more is known. */
  readonly version = (): number => this.#version;

  /** The card of a workbook as it is now, and its picture; rejects where it cannot be opened. */
  drawn(head: BookHead, soon = true): Promise<OwnDrawnCard> {
    const asked = `${head.id} ${head.updated}`;
    const before = this.#asked.get(asked);
    if (before !== undefined && !soon) return before;
    if (before !== undefined) this.#sooner(asked);
    const drawn = before ?? this.#draw(head, asked, soon);
    this.#asked.set(asked, drawn);
    return drawn;
  }

  /** Makes the cards that are not there yet, once nothing is looked at that waits for its own. */
  rest(heads: readonly BookHead[]): void {
    for (const head of heads) this.drawn(head, false).catch(() => undefined);
  }

  async #draw(head: BookHead, asked: string, soon: boolean): Promise<OwnDrawnCard> {
    const { store } = this.#bookcase;
    const kept = (await this.#kept).get(head.id);
    if (kept?.made === MADE && kept.updated === head.updated) {
      const card = kept.card as OwnCard;
      // One that nobody looks at is found by its words alone: its picture is read when it comes into sight.
      if (!soon) this.#asked.delete(asked);
      const picture = soon && kept.hasPicture ? await keptPicture(store, head.id) : undefined;
      return picture === undefined ? { card } : { card, picture };
    }
    const made = await this.#inTurn(asked, soon, async () => {
      const copy = await fileCopy(this.#bookcase, head.id);
      if (copy === undefined) throw new Error('It is not on this device any more.');
      if (copy.says !== undefined) throw new Error(copy.says);
      return this.#make(copy.text);
    });
    const { card, picture } = made;
    const entry = { made: MADE, updated: head.updated, card, hasPicture: picture !== undefined };
    // Where there is no room for it, it is made anew the next time.
    await keepCard(store, head.id, entry, picture).catch(() => undefined);
    this.#cards.set(head.id, card);
    this.#moments.set(head.id, head.updated);
    this.#told();
    return made;
  }

  /** Ends what it is at. */
  close(): void {
    this.#closed = true;
    this.#waiting.length = 0;
    this.#worker?.terminate();
    this.#worker = undefined;
  }

  #told(): void {
    this.#version += 1;
    for (const watcher of this.#watchers) watcher();
  }

  #sooner(asked: string): void {
    const at = this.#waiting.findIndex((one) => one.asked === asked);
    this.#waiting.unshift(...(at < 0 ? [] : this.#waiting.splice(at, 1)));
  }

  #inTurn<T>(asked: string, soon: boolean, does: () => Promise<T>): Promise<T> {
    return new Promise((resolve, reject) => {
      const one = { asked, work: () => does().then(resolve, reject) };
      if (soon) this.#waiting.unshift(one);
      else this.#waiting.push(one);
      void this.#work();
    });
  }

  async #work(): Promise<void> {
    if (this.#busy) return;
    this.#busy = true;
    for (let next = this.#waiting.shift(); next !== undefined; next = this.#waiting.shift()) {
      await next.work();
    }
    this.#busy = false;
  }

  #make(text: string): Promise<OwnDrawnCard> {
    if (this.#closed) return Promise.reject(new Error('The list was closed.'));
    this.#worker ??= new Worker(new URL('./card-worker.ts', import.meta.url), {
      type: 'module',
      name: 'cards',
    });
    const worker = this.#worker;
    return new Promise((resolve, reject) => {
      worker.onmessage = ({ data }: MessageEvent<CardTold>) => {
        if ('failed' in data) reject(new Error(data.failed));
        else resolve(data);
      };
      worker.onerror = (event) => {
        // The next one begins with another worker.
        worker.terminate();
        this.#worker = undefined;
        reject(new Error(event.message || 'The part that draws cards did not load.'));
      };
      worker.postMessage(text);
    });
  }
}

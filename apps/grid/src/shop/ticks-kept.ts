import { type BookcaseState, saveSentence, timeOfDay, Watched } from '@kerfbook/keeping';

/** Ticks of the bench list that this device has. */
export interface TicksKept {
  /** Whose they are. */
  readonly book: string;
  /** When the last of them was kept, ms since 1970; undefined where that was before this page. */
  readonly at?: number;
}

/** The ticks that are known to be kept, told beside what is said of the workbook; undefined where none are. */
export const ticksKept = new Watched<TicksKept | undefined>(undefined);

/** How safe the workbook is, and its ticks, which are kept beside it: of both the later time. */
export function savedSays(
  { save, current }: Pick<BookcaseState, 'save'> & { readonly current: { readonly id: string } },
  ticks: TicksKept | undefined,
): string {
  if (ticks?.book !== current.id) return saveSentence(save);
  const { at } = ticks;
  if (save.kind === 'untouched')
    return at === undefined ? 'Ticks saved' : `Ticks saved ${timeOfDay(at)}`;
  if (save.kind !== 'saved' || at === undefined) return saveSentence(save);
  return saveSentence({ kind: 'saved', at: Math.max(at, save.at) });
}

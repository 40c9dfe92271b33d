import { type Bookcase, saveSentence } from '@kerfbook/keeping';
import { useEffect, useSyncExternalStore } from 'react';
import { savedSays, ticksKept } from '../shop/ticks-kept.ts';
import { keepCopyLate } from './late-actions.ts';
import { useBookcase } from './use-bookcase.ts';

/** Whether the workbook is safe, in a word or two; what to do where it is not stands in {@link SaveTrouble}. */
export function SavedWords({ bookcase }: { readonly bookcase: Bookcase }) {
  const state = useBookcase(bookcase);
  const { save, current } = state;
  // Ticks stay with the workbook they were made for: a new one from the same template has its id and none of them.
  // biome-ignore lint/correctness/useExhaustiveDependencies: forgotten when another workbook is shown.
  useEffect(() => ticksKept.set(undefined), [current]);
  const says = savedSays(
    state,
    useSyncExternalStore(ticksKept.watch, () => ticksKept.value),
  );
  const isSaved = save.kind === 'saved' || says !== saveSentence(save);
  const where = isSaved ? `${says}, on this device` : says;
  return (
    <p className="saved-state" data-kind={save.kind} title={where}>
      {says}
    </p>
  );
}

/** Not saved, or open elsewhere: why, and what to do. Nothing where all is well. */
export function SaveTrouble({ bookcase }: { readonly bookcase: Bookcase }) {
  const { save, canTakeOver, current } = useBookcase(bookcase);
  if (save.kind === 'reading') return <Reading bookcase={bookcase} free={canTakeOver} />;
  if (save.kind !== 'notSaved') return null;
  return (
    <div className="notices notices-trouble" role="alert">
      <p>
        <span>{saveSentence(save)}</span>
        <span className="actions">
          <button
            type="button"
            className="button"
            onClick={() => keepCopyLate(bookcase, current.id)}
          >
            Save a copy as a file
          </button>
          {bookcase.store.lasting ? (
            <button type="button" className="button" onClick={() => void bookcase.retry()}>
              Try again
            </button>
          ) : null}
        </span>
      </p>
    </div>
  );
}

interface ReadingProps {
  readonly bookcase: Bookcase;
  readonly free: boolean;
}

function Reading({ bookcase, free }: ReadingProps) {
  const take = async () => {
    const done = await bookcase.takeOver();
    if (!done.ok) bookcase.notice(done.says);
  };
  return (
    <div className="notices" role="status">
      {free ? (
        <p>
          <span>The other tab has closed this workbook.</span>
          <button type="button" className="button button-main" onClick={() => void take()}>
            Edit here
          </button>
        </p>
      ) : (
        <p>Open elsewhere: view only. Close it there to edit it here.</p>
      )}
    </div>
  );
}

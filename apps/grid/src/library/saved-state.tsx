import { type Bookcase, saveSentence } from '@kerfbook/keeping';
import { keepCopyLate } from './late-actions.ts';
import { useBookcase } from './use-bookcase.ts';

/** Whether the workbook is safe, in words, and what to do where it is not. */
export function SavedState({ bookcase }: { readonly bookcase: Bookcase }) {
  const { save, canTakeOver, current } = useBookcase(bookcase);
  if (save.kind === 'reading') return <Reading bookcase={bookcase} free={canTakeOver} />;
  if (save.kind !== 'notSaved') return <p className="saved-state">{saveSentence(save)}</p>;
  return (
    <div className="saved-state saved-state-trouble" role="alert">
      <p>{saveSentence(save)}</p>
      <p className="actions">
        <button type="button" className="button" onClick={() => keepCopyLate(bookcase, current.id)}>
          Keep a copy as a file
        </button>
        {bookcase.store.lasting ? (
          <button type="button" className="button" onClick={() => void bookcase.retry()}>
            Try again
          </button>
        ) : null}
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
    <div className="saved-state" role="status">
      {free ? (
        <>
          <p>The other tab is done with this workbook.</p>
          <button type="button" className="button button-main" onClick={() => void take()}>
            Go on here
          </button>
        </>
      ) : (
        <p>Open for reading only: another tab is writing this workbook.</p>
      )}
    </div>
  );
}

import type { Bookcase } from '@kerfbook/keeping';
import { useBookcase } from './use-bookcase.ts';

/** Sentences the maker should read once, each until it is put away. */
export function Notices({ bookcase }: { readonly bookcase: Bookcase }) {
  const { notices } = useBookcase(bookcase);
  return (
    <div className="notices" role="status">
      {notices.map(({ id, says, inList }) => (
        <p key={id}>
          <span>{says}</span>
          <span className="actions">
            {inList === true ? (
              <button
                type="button"
                className="button"
                aria-label={`Show the list: ${says}`}
                onClick={() => bookcase.askForList()}
              >
                Show the list
              </button>
            ) : null}
            <button
              type="button"
              className="button"
              aria-label={`Dismiss: ${says}`}
              onClick={() => bookcase.dismiss(id)}
            >
              Dismiss
            </button>
          </span>
        </p>
      ))}
    </div>
  );
}

import { afterGridModule } from '../page/after-grid.ts';
import type { Session } from '../session/session.ts';

const sheets = afterGridModule(() => import('../commands/sheets.ts'));

/** Under the list of sheets: another one. What else can be done with them is in the menu of each (G45). */
export function SheetTools({ session }: { readonly session: Session }) {
  if (!session.mayChange) return null;
  const add = (): void => {
    sheets().then(
      ({ addSheet }) => {
        addSheet(session);
        requestAnimationFrame(() => session.focusGrid());
      },
      () => session.say('A part of Kerfbook did not load. Check your connection, then try again.'),
    );
  };
  return (
    <p className="sheet-tools">
      <button type="button" className="button-quiet" onClick={() => add()}>
        + Sheet
      </button>
    </p>
  );
}

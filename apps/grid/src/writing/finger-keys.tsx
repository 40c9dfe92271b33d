import { useSession } from '../page/use-session.ts';
import type { Session } from '../session/session.ts';

const SIGNS = ['=', '½', '¼', '⅛', '1/16', '′', '″', '+', '-', '*', '/', '(', ')'] as const;
/** What a sign writes, where that is something else: a fraction stands apart from its whole number. */
const WRITES: Readonly<Record<string, string>> = {
  '½': ' 1/2',
  '¼': ' 1/4',
  '⅛': ' 1/8',
  '1/16': ' 1/16',
  '′': "'",
  '″': '"',
};

/**
 * On a touch screen: the signs of lengths and formulas that a screen's keyboard hides, and between
 * entries what only keys do elsewhere (G64).
 */
export function FingerKeys({ session }: { readonly session: Session }) {
  const { editing } = useSession(session);
  if (!session.mayChange) return null;
  const write = (sign: string): void => {
    const says = WRITES[sign] ?? sign;
    if (editing === undefined) {
      session.begin('fresh', 'line', says.trimStart());
      return;
    }
    const { text, caret } = editing;
    const before = text.slice(0, caret);
    const put = before === '' ? says.trimStart() : says;
    session.write(before + put + text.slice(caret), caret + put.length);
  };
  return (
    <div
      className="finger-keys"
      role="toolbar"
      aria-label={editing === undefined ? 'Changes' : 'Signs'}
    >
      {editing === undefined ? (
        <>
          <button type="button" className="button" onClick={() => session.begin('edit', 'line')}>
            Edit
          </button>
          <button
            type="button"
            className="button"
            disabled={!session.book.canUndo}
            onClick={() => session.undo()}
          >
            Undo
          </button>
          <button
            type="button"
            className="button"
            disabled={!session.book.canRedo}
            onClick={() => session.redo()}
          >
            Redo
          </button>
        </>
      ) : (
        SIGNS.map((sign) => (
          <button
            key={sign}
            type="button"
            className="button"
            // The field keeps the focus, and the screen its keyboard.
            onPointerDown={(event) => event.preventDefault()}
            onMouseDown={(event) => event.preventDefault()}
            onClick={() => write(sign)}
          >
            {sign}
          </button>
        ))
      )}
    </div>
  );
}

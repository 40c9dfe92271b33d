import { useSession } from '../page/use-session.ts';
import type { Session } from '../session/session.ts';
import { NumberPad, padIsFor } from './number-pad.tsx';

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

/** On a touch screen, while something is written: the signs of lengths and formulas that its keyboard hides (G64). */
export function FingerKeys({ session }: { readonly session: Session }) {
  return (
    <>
      <Signs session={session} />
      <NumberPad session={session} />
    </>
  );
}

function Signs({ session }: { readonly session: Session }) {
  const { editing, at, pad } = useSession(session);
  // Between entries a press on the entry line begins one, and the rows have this room.
  if (editing === undefined || !session.mayChange) return null;
  if (padIsFor(session.book.cell(editing.at ?? at), editing, pad)) return null;
  const write = (sign: string): void => {
    const says = WRITES[sign] ?? sign;
    const { text, caret } = editing;
    const before = text.slice(0, caret);
    const put = before === '' ? says.trimStart() : says;
    session.write(before + put + text.slice(caret), caret + put.length);
  };
  return (
    <div className="finger-keys" role="toolbar" aria-label="Signs">
      {SIGNS.map((sign) => (
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
      ))}
    </div>
  );
}

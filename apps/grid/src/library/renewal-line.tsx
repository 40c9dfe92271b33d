import type { Bookcase } from '@kerfbook/keeping';
import { dismissNews, isDismissed, newsOf } from '@kerfbook/keeping/shelf';
import { documentChanges } from '@kerfbook/workbook';
import { useEffect, useState, useSyncExternalStore } from 'react';
import type { Showing } from '../page/activity.ts';
import type { Session } from '../session/session.ts';
import { counted } from './kinds.ts';
import { goToMark } from './marks.ts';
import { ShopLine } from './shop-line.tsx';
import './renewal.css';

interface RenewalLineProps {
  readonly session: Session;
  readonly bookcase: Bookcase;
  readonly onShow: (showing: Showing) => void;
}

/**
 * Over the grid: that the template was improved, once for each state of it; which of the shop's figures differ; and
 * what cells are marked for.
 */
export default function RenewalLine({ session, bookcase, onShow }: RenewalLineProps) {
  return (
    <>
      <NewsLine session={session} bookcase={bookcase} onShow={onShow} />
      <ShopLine session={session} bookcase={bookcase} onLook={() => onShow('shop')} />
      <ComparingLine session={session} />
    </>
  );
}

interface Told {
  readonly session: Session;
  /** The state that the workbook rests on. */
  readonly base: string | undefined;
  readonly title: string;
  readonly sign: string;
  readonly brings: string;
}

function NewsLine({ session, bookcase, onShow }: RenewalLineProps) {
  const [told, setTold] = useState<Told>();
  const lineage = useSyncExternalStore(session.state.watch, () => session.book.head.lineage?.base);
  useEffect(() => {
    let here = true;
    const ask = async (): Promise<void> => {
      const news = await newsOf(bookcase);
      if (news.kind === 'none' || (await isDismissed(bookcase, news.state.sign))) return;
      const brings = bringsOf(documentChanges(news.base, news.now));
      if (!here || brings === '' || !session.mayChange) return;
      setTold({ session, base: lineage, title: news.title, sign: news.state.sign, brings });
    };
    setTold(undefined);
    // No news is no trouble: whoever asks for it in the menu is told why there is none.
    ask().catch(() => undefined);
    return () => {
      here = false;
    };
  }, [session, bookcase, lineage]);
  if (told?.session !== session || told.base !== lineage) return null;
  const answer = (look: boolean) => () => {
    setTold(undefined);
    void dismissNews(bookcase, told.sign).catch(() => undefined);
    if (look) onShow('renewal');
    else session.focusGrid();
  };
  return (
    <p className="offer" role="status">
      <span>
        The template this came from was improved: {told.brings} in "{told.title}".
      </span>
      <span className="actions">
        <button type="button" className="button" onClick={answer(true)}>
          Look at what it brings
        </button>
        <button type="button" className="button" onClick={answer(false)}>
          Not now
        </button>
      </span>
    </p>
  );
}

/** What a template was changed in, counted: `3 cells and 1 row`. */
function bringsOf(changes: ReturnType<typeof documentChanges>): string {
  let cells = 0;
  let others = 0;
  for (const change of changes) {
    if (change.change === 'head') continue;
    if (change.change === 'cells') cells += change.cells.length;
    else if (change.change === 'insert') others += change.items.length;
    else others += 'ids' in change ? change.ids.length : 1;
  }
  return [
    ...(cells === 0 ? [] : [counted(cells, 'changed cell')]),
    ...(others === 0 ? [] : [counted(others, 'other change')]),
  ].join(' and ');
}

/** What the marks in the grid are, the way from one to the next, and the way to be rid of them. */
function ComparingLine({ session }: { readonly session: Session }) {
  const comparing = useSyncExternalStore(session.state.watch, () => session.state.value.comparing);
  if (comparing === undefined) return null;
  const { title, cells } = comparing;
  const step = (by: 1 | -1) => () => {
    goToMark(session, by);
    session.focusGrid();
  };
  return (
    <p className="offer comparing" role="status">
      <span>
        Compared with "{title}": {counted(cells.size, 'cell differs', 'cells differ')}, marked by a
        bar on both sides.
      </span>
      <span className="actions">
        <button type="button" className="button" onClick={step(-1)}>
          Previous
        </button>
        <button type="button" className="button" onClick={step(1)}>
          Next
        </button>
        <button
          type="button"
          className="button"
          onClick={() => {
            session.compare(undefined);
            session.focusGrid();
          }}
        >
          Stop comparing
        </button>
      </span>
    </p>
  );
}

import type { Bookcase } from '@kerfbook/keeping';
import { loadLazy } from '@kerfbook/workbook';
import { Suspense, useEffect, useState } from 'react';
import type { Showing } from '../page/activity.ts';
import { later } from '../page/later.tsx';
import type { Session } from '../session/session.ts';
import { bringsBook } from './link.ts';

const SendLink = later(() => import('./send-link.tsx'));
// What came is worked out before it is kept, and with all of the engine.
const OpenLink = later(async () => {
  const [module] = await Promise.all([import('./open-link.tsx'), loadLazy()]);
  return module;
});

interface LinksProps {
  readonly session: Session;
  readonly bookcase: Bookcase;
  readonly showing: Showing | undefined;
  readonly onShow: (showing: Showing | undefined) => void;
  /** A workbook from a link is open now. */
  readonly onOpened: () => void;
}

/** Workbooks that go out as links and come in by them: in the page's address, or pasted. */
export default function Links({ session, bookcase, showing, onShow, onOpened }: LinksProps) {
  const [brought, setBrought] = useState<string>();
  useEffect(() => {
    // Also where a link is put into the address of a page that is open.
    const look = (): void => {
      const { hash, pathname, search } = location;
      if (!bringsBook(hash)) return;
      setBrought(hash);
      onShow('link');
      // A reload goes on with the workbooks of this device and does not ask again.
      history.replaceState(history.state, '', pathname + search);
    };
    look();
    addEventListener('hashchange', look);
    return () => removeEventListener('hashchange', look);
  }, [onShow]);
  const answered = (then: () => void) => () => {
    setBrought(undefined);
    then();
  };
  const close = (): void => onShow(undefined);
  return (
    <Suspense fallback={null}>
      {showing === 'send' ? (
        <SendLink session={session} bookcase={bookcase} onClose={close} />
      ) : null}
      {showing === 'link' ? (
        <OpenLink
          key={brought}
          bookcase={bookcase}
          brought={brought}
          onOpened={answered(onOpened)}
          onClose={answered(close)}
        />
      ) : null}
    </Suspense>
  );
}

import type { Bookcase } from '@kerfbook/keeping';
import { freeTitle, listBooks, saveAsOwn, titlesIn } from '@kerfbook/keeping/shelf';
import type { At } from '@kerfbook/workbook';
import { useEffect, useState } from 'react';
import type { Session } from '../session/session.ts';
import type { Offer } from '../session/types.ts';
import { Dialog } from './dialog.tsx';
import { NameForm } from './name-form.tsx';

const inTemplate = (title: string): string =>
  `You are in your template "${title}" now: what you change here changes the template. To begin a job from it, press "Start a new job from it" in the list of workbooks.`;

function openTemplate(bookcase: Bookcase, id: string): void {
  void bookcase.open(id).then((done) => {
    if (!done.ok) bookcase.notice(done.says);
    else bookcase.notice(inTemplate(bookcase.current.book.title), 'at hand');
  });
}

interface SaveAsProps {
  readonly session: Session;
  readonly bookcase: Bookcase;
  /** The template is kept, and the workbook it was made from is at hand again: what is said there, and where one was. */
  readonly onSaved: (offer: Offer, at: At) => void;
  /** The template is at hand. */
  readonly onOpened: () => void;
  readonly onClose: () => void;
}

/** Asks for the name under which the workbook at hand becomes a template of the maker's own. */
export default function SaveAs({ session, bookcase, onSaved, onOpened, onClose }: SaveAsProps) {
  const { title } = bookcase.current.book;
  const [start, setStart] = useState<string>();
  useEffect(() => {
    const wished = `${title}, mine`;
    listBooks(bookcase).then(
      (listing) => setStart(freeTitle(wished, titlesIn(listing))),
      // The list only helps with the name: a device that cannot be read is told of when it is to be written.
      () => setStart(wished),
    );
  }, [bookcase, title]);
  if (start === undefined) return null;
  return (
    <Dialog title="Save as my template" onClose={onClose}>
      <NameForm
        label="Template name"
        start={start}
        does="Save"
        onName={async (name) => {
          const { id: before } = bookcase.current;
          const { at } = session;
          const hadUndo = session.book.canUndo;
          const done = await saveAsOwn(bookcase, name);
          if (!done.ok) return done;
          const called = `"${name.trim()}"`;
          const { id } = bookcase.current;
          const back = await bookcase.open(before);
          if (back.ok) {
            const undoGone = hadUndo && !bookcase.current.book.canUndo;
            onSaved(
              {
                says: `Saved as your template ${called}. You are still in "${title}"${undoGone ? '; undo begins anew in it' : ''}.`,
                answers: [{ says: `Open ${called}`, does: () => openTemplate(bookcase, id) }],
                putAway: 'Dismiss',
              },
              at,
            );
          } else {
            onOpened();
            bookcase.notice(
              `${inTemplate(name.trim())} "${title}" could not be opened again: ${back.says}`,
              'at hand',
            );
          }
          return done;
        }}
        onCancel={onClose}
      />
    </Dialog>
  );
}

import type { Bookcase } from '@kerfbook/keeping';
import { freeTitle, listBooks, saveAsOwn, titlesIn } from '@kerfbook/keeping/shelf';
import { useEffect, useState } from 'react';
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
  readonly bookcase: Bookcase;
  /** The template is kept: what is said in the workbook it was made from. */
  readonly onSaved: (offer: Offer) => void;
  readonly onClose: () => void;
}

/** Asks for the name under which the workbook at hand becomes a template of the maker's own. */
export default function SaveAs({ bookcase, onSaved, onClose }: SaveAsProps) {
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
          const done = await saveAsOwn(bookcase, name);
          if (!done.ok) return done;
          const called = `"${name.trim()}"`;
          onSaved({
            says: `Saved as your template ${called}. You are still in "${title}".`,
            answers: [{ says: `Open ${called}`, does: () => openTemplate(bookcase, done.id) }],
            putAway: 'Dismiss',
          });
          return done;
        }}
        onCancel={onClose}
      />
    </Dialog>
  );
}

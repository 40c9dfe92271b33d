import type { Bookcase } from '@kerfbook/keeping';
import { freeTitle, listBooks, saveAsOwn, titlesIn } from '@kerfbook/keeping/shelf';
import { useEffect, useState } from 'react';
import { Dialog } from './dialog.tsx';
import { NameForm } from './name-form.tsx';

interface SaveAsProps {
  readonly bookcase: Bookcase;
  /** It goes on under that name. */
  readonly onOpened: () => void;
  readonly onClose: () => void;
}

/** Asks for the name under which the workbook at hand becomes a template of the maker's own. */
export default function SaveAs({ bookcase, onOpened, onClose }: SaveAsProps) {
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
          const from = bookcase.current.book.title;
          const done = await saveAsOwn(bookcase, name);
          if (done.ok) {
            onOpened();
            bookcase.notice(
              `You are in your template "${name.trim()}" now: what you change here changes the template. To begin a job from it, press "Start a new job from it" in the list of workbooks. "${from}" stays as it is.`,
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

import type { Bookcase } from '@kerfbook/keeping';
import { saveAsOwn } from '@kerfbook/keeping/shelf';
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
  return (
    <Dialog title="Save as my template" onClose={onClose}>
      <NameForm
        label="Template name"
        start={`${bookcase.current.book.title}, mine`}
        does="Save"
        onName={async (name) => {
          const from = bookcase.current.book.title;
          const done = await saveAsOwn(bookcase, name);
          if (done.ok) {
            onOpened();
            bookcase.notice(
              `You are in your template "${name.trim()}" now. "${from}" stays as it is among the workbooks.`,
            );
          }
          return done;
        }}
        onCancel={onClose}
      />
    </Dialog>
  );
}

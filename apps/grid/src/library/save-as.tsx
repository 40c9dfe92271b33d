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
    <Dialog title="Save as a template of mine" onClose={onClose}>
      <NameForm
        label="Its name"
        start={`${bookcase.current.book.title}, mine`}
        does="Save"
        onName={async (name) => {
          const done = await saveAsOwn(bookcase, name);
          if (done.ok) onOpened();
          return done;
        }}
        onCancel={onClose}
      />
    </Dialog>
  );
}

import type { Bookcase } from '@kerfbook/keeping';
import type { Showing } from '../page/activity.ts';
import { servedByClub } from '../page/served-by-club.ts';
import type { Session } from '../session/session.ts';
import { Dialog } from './dialog.tsx';
import { keepCopyLate } from './late-actions.ts';
import { originSentence } from './origin.ts';
import { useBookcase } from './use-bookcase.ts';

interface TitlePanelProps {
  readonly session: Session;
  readonly bookcase: Bookcase;
  readonly onShow: (showing: Showing) => void;
  readonly onClose: () => void;
}

/** Behind the title: what the workbook is called and where it came from, and the way to the others. */
export default function TitlePanel({ session, bookcase, onShow, onClose }: TitlePanelProps) {
  const { current } = useBookcase(bookcase);
  const { origin } = current;
  const { book, mayChange } = session;
  const shipped =
    origin.kind === 'template'
      ? bookcase.templates.find(({ key }) => key === origin.template)?.title
      : undefined;
  const { title, customer, job, due, agreed, revision } = book.head;
  const facts = (
    [
      ['Name', title],
      ['Customer', customer],
      ['Job number', job],
      ['Due date', due],
      ['Price agreed on', agreed],
      ['Revision', revision],
    ] as const
  ).filter(([, says]) => says !== undefined);
  return (
    <Dialog title="This workbook" onClose={onClose}>
      <dl className="title-facts">
        {facts.map(([what, says]) => (
          <div key={what}>
            <dt>{what}</dt>
            <dd>{says}</dd>
          </div>
        ))}
      </dl>
      <p className="quiet">{originSentence(origin, shipped)}</p>
      {book.locked ? (
        <p className="quiet">Formulas are locked: only inputs can be changed.</p>
      ) : null}
      <p className="actions">
        <button type="button" className="button button-main" onClick={() => onShow('saveAs')}>
          Save as my template
        </button>
        {mayChange && !book.locked ? (
          <button type="button" className="button" onClick={() => onShow('about')}>
            Name, customer, dates
          </button>
        ) : null}
        <button type="button" className="button" onClick={() => onShow('workbooks')}>
          Workbooks
        </button>
        <button type="button" className="button" onClick={() => onShow('versions')}>
          Versions
        </button>
        <button type="button" className="button" onClick={() => onShow('compare')}>
          Compare
        </button>
        <button type="button" className="button" onClick={() => onShow('renewal')}>
          New in the template
        </button>
        <button type="button" className="button" onClick={() => keepCopyLate(bookcase, current.id)}>
          Save a copy as a file
        </button>
        <button type="button" className="button" onClick={() => onShow('office')}>
          Save for office programs
        </button>
        <button type="button" className="button" onClick={() => onShow('send')}>
          Send as a link
        </button>
        {servedByClub ? (
          <button type="button" className="button" onClick={() => onShow('publish')}>
            Publish on the shelf
          </button>
        ) : null}
      </p>
    </Dialog>
  );
}

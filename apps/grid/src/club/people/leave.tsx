import { useId, useState } from 'react';
import { Question } from '../../library/book-rows.tsx';
import { Complaint } from '../complaint.tsx';
import { askClub, lookHere } from '../here.ts';
import { useDoes } from '../use-asked.ts';
import { Section } from './section.tsx';

type Published = 'give' | 'take';

const WHAT_HAPPENS: Readonly<Record<Published, string>> = {
  give: 'What you published stays on the shelf, as of a former member.',
  take: 'Your templates go off the shelf, with their revisions, remarks and photos.',
};

/** Leaves the club. */
export function Leave({ club }: { readonly club: string }) {
  const [published, setPublished] = useState<Published>('give');
  const [asking, setAsking] = useState(false);
  const { busy, says, run } = useDoes();
  const names = useId();
  const go = async (): Promise<void> => {
    setAsking(false);
    if (await run(() => askClub('leave', { body: { published } }))) await lookHere('again');
  };
  return (
    <Section title="Leave the club">
      <p className="quiet">
        Your name goes, with your password, passkeys and tokens, and so do the workbooks that the
        club keeps for you. What is on your devices stays there.
      </p>
      <fieldset className="shelf-choice">
        <legend>What you published</legend>
        <label>
          <input
            type="radio"
            name={names}
            checked={published === 'give'}
            onChange={() => setPublished('give')}
          />
          Leave it to the club
        </label>
        <label>
          <input
            type="radio"
            name={names}
            checked={published === 'take'}
            onChange={() => setPublished('take')}
          />
          Take it with me, off the shelf
        </label>
      </fieldset>
      <Complaint says={says} />
      {asking ? (
        <Question
          says={`Leave ${club}? ${WHAT_HAPPENS[published]} Workbooks that the club keeps for you go from it; those on this device stay. Only a new link brings you back, as somebody new.`}
          does="Leave the club"
          onYes={() => void go()}
          onNo={() => setAsking(false)}
        />
      ) : (
        <p className="actions">
          <button
            type="button"
            className="button button-danger"
            disabled={busy}
            onClick={() => setAsking(true)}
          >
            Leave the club
          </button>
        </p>
      )}
    </Section>
  );
}

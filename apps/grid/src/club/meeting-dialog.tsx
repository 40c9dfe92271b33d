import { type Bookcase, breath, writeTrouble } from '@kerfbook/keeping';
import type { ClubBooks, MeetingHere } from '@kerfbook/keeping/club';
import type { Choices } from '@kerfbook/workbook';
import { useCallback, useEffect, useMemo, useState } from 'react';
import { Afterwards, useChoosing } from '../library/choosing.tsx';
import { Dialog } from '../library/dialog.tsx';
import { Folded } from '../library/folded.tsx';
import { MET_KINDS } from '../library/kinds.ts';
import { MetList, type MetWords } from '../library/met-list.tsx';
import { momentOf } from '../library/moments.ts';
import { Outcome } from '../library/outcome.tsx';
import { Complaint } from './complaint.tsx';
import { atHand } from './following.ts';
import { counted } from './words.ts';
import '../library/renewal.css';

interface MeetingDialogProps {
  readonly bookcase: Bookcase;
  readonly books: ClubBooks;
  /** Id of whoever is signed in. */
  readonly me: string;
  readonly onClose: () => void;
}

/** What the maker and another, or he himself on another device, changed at the same places; he chooses at each. */
export default function MeetingDialog(props: MeetingDialogProps) {
  const { bookcase, books, onClose } = props;
  const { id } = bookcase.current;
  const [met, setMet] = useState<MeetingHere | { readonly says: string }>();
  const [says, setSays] = useState<string>();
  const look = useCallback(async () => {
    // Several workbooks are worked out: the dialog is seen before that.
    await breath();
    return books.meeting(id).catch((error: unknown) => ({ says: writeTrouble(error) }));
  }, [books, id]);
  useEffect(() => {
    let here = true;
    void look().then((found) => {
      if (here) setMet(found);
    });
    return () => {
      here = false;
    };
  }, [look]);
  const settle = async (choices: Choices, head: number): Promise<void> => {
    setSays(undefined);
    atHand.isChosen = true;
    const done = await books
      .settle(id, choices, head)
      .catch((error: unknown) => ({ ok: false as const, says: writeTrouble(error) }));
    atHand.isChosen = false;
    if (done.ok) return onClose();
    // What is there to choose about may be otherwise by now: it is shown before it can be chosen.
    setSays(done.says);
    setMet(await look());
  };
  return (
    <Dialog title="Both changed" onClose={onClose}>
      {met === undefined ? <p className="quiet">Working out what each of both does …</p> : null}
      {met !== undefined && 'says' in met ? <p>{met.says}</p> : null}
      <Complaint says={says} />
      {met !== undefined && 'renewal' in met ? (
        <Found key={met.head} {...props} met={met} onSettle={settle} />
      ) : null}
    </Dialog>
  );
}

interface FoundProps extends MeetingDialogProps {
  readonly met: MeetingHere;
  readonly onSettle: (choices: Choices, head: number) => Promise<void>;
}

function Found({ me, met: meeting, onSettle, onClose }: FoundProps) {
  const { renewal, by, device, at, head } = meeting;
  const { met, taken, kept } = renewal;
  const theirs = by.id === me ? `On "${device}"` : `${by.name}'s`;
  const { choices, choose, many, showAll, weighings, now } = useChoosing(renewal, met, 'mine');
  const [busy, setBusy] = useState(false);
  const words = useMemo(
    (): MetWords => ({
      kinds: MET_KINDS,
      mine: by.id === me ? 'Here' : 'Mine',
      theirs,
      keepAll: (all) => `Keep all ${all} as they are here`,
      takeAll: (all) =>
        by.id === me ? `Take all ${all} from "${device}"` : `Take all ${all} of ${by.name}'s`,
    }),
    [theirs, by, me, device],
  );
  const told = useMemo(() => renewal.told(choices), [renewal, choices]);
  const unseen = Math.max(0, met.length - many);
  const who =
    by.id === me ? `You changed it on "${device}"` : `${by.name} changed it on "${device}"`;
  return (
    <>
      <p>
        {who}, {momentOf(at)}. At {counted(met.length, 'place')} you changed the same here: choose
        which one stands. What was here before is kept under "Versions".
      </p>
      <section className="renewal-part" aria-labelledby="meeting-met">
        <h3 id="meeting-met">Changed on both sides</h3>
        <MetList
          met={met}
          words={words}
          choices={choices}
          onChoose={choose}
          each={weighings.each}
          many={many}
          onMore={showAll}
        />
      </section>
      {taken.length === 0 ? null : (
        <section className="renewal-part" aria-labelledby="meeting-taken">
          <h3 id="meeting-taken">Only changed there: comes in</h3>
          <Folded all={taken} before="Here now" after="Then" />
        </section>
      )}
      {kept.length === 0 ? null : (
        <section className="renewal-part" aria-labelledby="meeting-kept">
          <h3 id="meeting-kept">Only changed here: stays</h3>
          <Folded all={kept} before="Before" after="Here" />
        </section>
      )}
      <Afterwards told={told} />
      <Outcome now={now} weighings={weighings} />
      {unseen === 0 ? null : (
        <p className="quiet">
          {counted(unseen, 'more place')} {unseen === 1 ? 'is' : 'are'} to be looked at before you
          can settle it.
        </p>
      )}
      <p className="actions renewal-end">
        <button
          type="button"
          className="button button-main"
          disabled={busy || unseen > 0}
          onClick={() => {
            setBusy(true);
            void onSettle(choices, head).finally(() => setBusy(false));
          }}
        >
          {met.length === 1 ? 'Take what I chose' : `Take what I chose at ${met.length} places`}
        </button>
        <button type="button" className="button" onClick={onClose}>
          Not now
        </button>
      </p>
    </>
  );
}

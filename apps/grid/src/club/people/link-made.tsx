import type { AnswerOf } from '@kerfbook/protocol';
import { renderSVG } from 'uqr';
import { momentOf } from '../../library/moments.ts';
import { Complaint } from '../complaint.tsx';
import { ShownOnce } from './shown-once.tsx';

interface LinkMadeProps {
  /** Whose it is, where it is of somebody who is in the club. */
  readonly of?: string;
  readonly code: string;
  readonly ends: number;
  /** Who opens it, and what comes of it. */
  readonly says: string;
  /** What came of sending it, where it was to be sent. */
  readonly mail?: AnswerOf<'invite'>['mail'];
  readonly onAway: () => void;
}

/** A link into the club, to be copied or scanned. */
export function LinkMade({ of, code, ends, says, mail, onAway }: LinkMadeProps) {
  const link = `${location.origin}${location.pathname}#join=${code}`;
  const own = /^(?:localhost|127\.0\.0\.1|\[::1\])$/.test(location.hostname);
  // As a picture: what it is made of never becomes part of the page.
  const picture = `data:image/svg+xml,${encodeURIComponent(renderSVG(link, { border: 4, ecc: 'M' }))}`;
  return (
    <div className="shelf-link">
      <p role="status">
        {says} The link is good once, until {momentOf(ends)}.
      </p>
      {mail === undefined ? null : mail.sent ? (
        <p role="status">{mail.says}</p>
      ) : (
        <Complaint says={mail.says} />
      )}
      {own && mail?.sent !== true ? (
        <p className="complaint">
          Other devices cannot open this link, as it says "{location.hostname}", which each device
          takes for itself. Open the club by its address on the network, which stands where the club
          was started, and make the link there.
        </p>
      ) : null}
      <ShownOnce
        what={of === undefined ? 'Link' : `Link for ${of}`}
        value={link}
        does="Copy the link"
      />
      <img className="shelf-code" src={picture} alt="The link, to be scanned" />
      {own ? null : (
        <p className="quiet">
          {of === undefined
            ? 'A tablet joins by scanning this.'
            : 'A tablet opens it by scanning this.'}
        </p>
      )}
      <button type="button" className="button" onClick={onAway}>
        Put it away
      </button>
    </div>
  );
}

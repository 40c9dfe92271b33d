import { imagePath } from '@kerfbook/protocol';
import { useState } from 'react';

interface ShelfPictureProps {
  /** Left out where there is none. */
  readonly id: string | undefined;
  /** What it shows; empty where the words beside it say so. */
  readonly says: string;
  readonly className?: string;
}

/** A picture or photograph that the club keeps. */
export function ShelfPicture({ id, says, className }: ShelfPictureProps) {
  const [failed, setFailed] = useState(false);
  return (
    <div className={className}>
      {id === undefined || failed ? (
        <p className="quiet">{id === undefined ? 'No picture' : 'The picture did not come.'}</p>
      ) : (
        <img
          className="shelf-image"
          src={imagePath(id)}
          alt={says}
          loading="lazy"
          decoding="async"
          onError={() => setFailed(true)}
        />
      )}
    </div>
  );
}

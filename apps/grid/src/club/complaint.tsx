/** Why something was not done; read aloud as soon as it stands there. */
export function Complaint({ says }: { readonly says: string | undefined }) {
  if (says === undefined) return null;
  return (
    <p className="complaint" role="alert">
      {says}
    </p>
  );
}

/** In the place of what is asked for: on its way, or why it did not come. */
export function OnItsWay({
  says,
  what,
  again,
}: {
  readonly says: string | undefined;
  /** What is being done: `Reading the remarks …`. */
  readonly what: string;
  readonly again: () => void;
}) {
  if (says === undefined) return <p className="quiet">{what}</p>;
  return (
    <>
      <Complaint says={says} />
      <p className="actions">
        <button type="button" className="button" onClick={again}>
          Try again
        </button>
      </p>
    </>
  );
}

import { useRef, useState } from 'react';
import '../../library/sending.css';

interface ShownOnceProps {
  /** What it is: `Link`. */
  readonly what: string;
  readonly value: string;
  /** What the button says. */
  readonly does: string;
}

/** Something to be copied from here, as it is not shown again. */
export function ShownOnce({ what, value, does }: ShownOnceProps) {
  const [says, setSays] = useState<string>();
  const field = useRef<HTMLTextAreaElement>(null);
  const copy = (): void => {
    const copying = navigator.clipboard?.writeText(value) ?? Promise.reject(new Error('none'));
    copying.then(
      () => setSays('Copied.'),
      () => {
        field.current?.select();
        setSays('This browser does not let the page copy. It is selected: copy it yourself.');
      },
    );
  };
  return (
    <>
      <textarea
        ref={field}
        className="field link-field"
        aria-label={what}
        readOnly
        rows={2}
        value={value}
        onFocus={(event) => event.currentTarget.select()}
      />
      <p className="actions">
        <button type="button" className="button button-main" onClick={copy}>
          {does}
        </button>
        <span role="status">{says}</span>
      </p>
    </>
  );
}

/** Lines that are drawn of each kind, at the most. */
const MOST_DRAWN = 200;
/** So few are read at a glance. */
const SHOWN_OPEN = 3;

interface Told<Kind extends string> {
  readonly kind: Kind;
  readonly of: string;
  readonly says: string;
}

interface ToldListProps<Kind extends string> {
  readonly told: readonly Told<Kind>[];
  /** In their order, with the heading of each. */
  readonly kinds: readonly (readonly [kinds: readonly Kind[], says: string])[];
  /** Where lines that are not drawn are found. */
  readonly rest: string;
}

/** What came or went otherwise, each with its cell, by kind. */
export function ToldList<Kind extends string>({ told, kinds, rest }: ToldListProps<Kind>) {
  return kinds.map(([of, says]) => {
    const lines = told.filter(({ kind }) => of.includes(kind));
    const more = lines.length - MOST_DRAWN;
    return lines.length === 0 ? null : (
      <details key={says} open={lines.length <= SHOWN_OPEN}>
        <summary>
          {says}: {lines.length.toLocaleString('en-US')}
        </summary>
        <ul>
          {lines.slice(0, MOST_DRAWN).map((line, at) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: lines of one report never change places
            <li key={at}>
              <strong>{line.of}</strong> {line.says}
            </li>
          ))}
        </ul>
        {more > 0 ? (
          <p className="quiet">
            And {more.toLocaleString('en-US')} more; {rest}
          </p>
        ) : null}
      </details>
    );
  });
}

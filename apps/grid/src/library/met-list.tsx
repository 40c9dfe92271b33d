import type { Choices, Met, Which } from '@kerfbook/workbook';
import { useId } from 'react';
import { byKind, counted } from './kinds.ts';
import { doesBeside, type Each, type Outcome } from './weighing.ts';

/** Something of which there are two, in words. */
export interface MetLine extends Pick<Met, 'key' | 'what' | 'sheet' | 'mine' | 'theirs'> {
  readonly kind: string;
  /** What it was in what both have in common, where they have. */
  readonly base?: Met['base'];
}

/** How the two sides and the kinds of what differs are called. */
export interface MetWords {
  /** The kinds in their order, each with its heading. */
  readonly kinds: readonly (readonly [kind: string, head: string])[];
  readonly mine: string;
  readonly theirs: string;
  readonly keepAll: (many: number) => string;
  readonly takeAll: (many: number) => string;
}

interface MetListProps {
  readonly met: readonly MetLine[];
  readonly words: MetWords;
  readonly choices: Choices;
  readonly onChoose: (keys: readonly string[], which: Which) => void;
  readonly each: ReadonlyMap<string, Each>;
  /** So many are on the page; the others after a press. */
  readonly many: number;
  readonly onMore: () => void;
}

/** What there is otherwise on two sides, by kinds, with what each of both does. */
export function MetList(props: MetListProps) {
  const { met, words, choices, onChoose, many, onMore } = props;
  const heads = new Map(words.kinds);
  let left = many;
  return (
    <>
      {byKind(met, [...heads.keys()]).map(([kind, some]) => {
        const shown = some.slice(0, left);
        left -= shown.length;
        const head = heads.get(kind) ?? '';
        return shown.length === 0 ? null : (
          <section key={kind} className="met-kind" aria-label={head}>
            <h4>
              {head} <span className="quiet">({some.length})</span>
            </h4>
            {some.length < 2 ? null : (
              <p className="actions">
                {(
                  [
                    ['mine', words.keepAll(some.length)],
                    ['theirs', words.takeAll(some.length)],
                  ] as const
                ).map(([which, says]) => (
                  <button
                    key={which}
                    type="button"
                    className="button"
                    aria-label={`${says}: ${head}`}
                    aria-pressed={some.every(({ key }) => (choices.get(key) ?? 'mine') === which)}
                    onClick={() =>
                      onChoose(
                        some.map(({ key }) => key),
                        which,
                      )
                    }
                  >
                    {says}
                  </button>
                ))}
              </p>
            )}
            {shown.map((one) => (
              <MetCard key={one.key} one={one} {...props} />
            ))}
          </section>
        );
      })}
      {met.length > many ? (
        <button type="button" className="button" onClick={onMore}>
          Show the other {counted(met.length - many, 'place')}
        </button>
      ) : null}
    </>
  );
}

function MetCard({
  one,
  words,
  choices,
  onChoose,
  each,
}: MetListProps & { readonly one: MetLine }) {
  const name = useId();
  const { key, what, sheet, mine, theirs, base } = one;
  const chosen = choices.get(key) ?? 'mine';
  const outcome = each.get(key);
  const sides = [
    ['mine', words.mine, mine],
    ['theirs', words.theirs, theirs],
  ] as const;
  return (
    <fieldset className="met">
      <legend>
        {what} {sheet === '' ? null : <span className="quiet">{sheet}</span>}
      </legend>
      {base === undefined ? null : (
        <p className="quiet met-was">It was {base.entry === '' ? 'empty' : said(base)}.</p>
      )}
      <div className="met-sides">
        {sides.map(([which, head, side]) => (
          <label key={which} className="met-side" data-chosen={chosen === which}>
            <span className="met-head">
              <input
                type="radio"
                name={name}
                aria-label={`${head}: ${what}${sheet === '' ? '' : `, ${sheet}`}`}
                checked={chosen === which}
                onChange={() => onChoose([key], which)}
              />
              <strong>{head}</strong>
            </span>
            <span className="met-entry">{side.entry === '' ? 'empty' : side.entry}</span>
            <Does
              outcome={outcome?.[which]}
              other={outcome?.[which === 'mine' ? 'theirs' : 'mine']}
              entry={side.entry}
              isCell={one.kind === 'entry'}
            />
          </label>
        ))}
      </div>
    </fieldset>
  );
}

const said = ({ entry, comes }: Met['base']): string =>
  entry.startsWith('=') ? `${comes} (${entry})` : entry;

interface DoesProps {
  readonly outcome: Outcome | undefined;
  readonly other: Outcome | undefined;
  readonly entry: string;
  readonly isCell: boolean;
}

/** What one choice comes to in results, parts and checks. */
function Does({ outcome, other, entry, isCell }: DoesProps) {
  if (outcome === undefined || other === undefined) {
    return <span className="quiet">Working it out …</span>;
  }
  if ('says' in outcome) return <span className="complaint">{outcome.says}</span>;
  const lines = 'says' in other ? [] : [...new Set(doesBeside(outcome, other))];
  const comes = isCell && entry.startsWith('=') ? [`Comes to ${outcome.comes}`] : [];
  const all = [
    ...comes,
    ...(lines.length === 0 ? ['No other result, part or check depends on it'] : lines),
  ];
  return (
    <span className="met-does">
      {all.map((line) => (
        <span key={line}>{line}</span>
      ))}
    </span>
  );
}

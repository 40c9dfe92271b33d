import type { At, CheckState } from '@kerfbook/workbook';
import { useEffect, useId, useRef, useState, useSyncExternalStore } from 'react';
import { AT_MOST, type DidLine, type Digest } from '../did/digest.ts';
import { typedOver } from '../did/state-words.ts';
import { tellerOf, wayBack } from '../did/teller.ts';
import { saidByWords } from '../page/words-for.ts';
import type { Session, Turned } from '../session/session.ts';
import { bringIntoSight } from './into-sight.ts';
import { STATE_WORDS, StateIcon } from './state-icon.tsx';
import './did.css';

interface DidFoldProps {
  readonly session: Session;
  /** Takes the maker to a cell. */
  readonly onGo: (at: At) => void;
}

/** What the last change did, under what was kept of changes before it. */
export function DidFold({ session, onGo }: DidFoldProps) {
  const teller = tellerOf(session);
  const { kept, ...told } = useSyncExternalStore(teller.state.watch, () => teller.state.value);
  const last = told.trying ?? told.last;
  if (last === undefined) {
    return (
      <p className="quiet">
        Change a number: what moves by it, on all sheets, is listed here with what it was before.
      </p>
    );
  }
  const isKept = kept.some(({ id }) => id === last.id);
  return (
    <>
      {kept.map((digest) => (
        <Did key={digest.id} session={session} digest={digest} isKept onGo={onGo} />
      ))}
      {isKept ? null : (
        <Did key="last" session={session} digest={last} isKept={false} onGo={onGo} />
      )}
    </>
  );
}

/** What was changed; the name, for those who write formulas, quieter behind the label. */
function DidSays({ digest: { says, named } }: { readonly digest: Digest }) {
  if (named === undefined) return says;
  const { name, after } = named;
  return (
    <>
      {says.slice(0, after)} <span className="did-name">{name}</span>
      {says.slice(after)}
    </>
  );
}

interface DidProps extends DidFoldProps {
  readonly digest: Digest;
  readonly isKept: boolean;
}

function Did({ session, digest, isKept, onGo }: DidProps) {
  const { id, lines, first, turned, more, since, others, nothing } = digest;
  const [opened, setOpened] = useState<number>();
  const all = opened === id;
  const head = useId();
  const within = useRef<HTMLElement>(null);
  const worse = turned.some(({ was, is }) => isWorse(was, is));
  // A check that turns for the worse is seen wherever the maker had scrolled to.
  useEffect(() => {
    if (worse && id > 0) bringIntoSight(within.current);
  }, [worse, id]);
  const go = { session, onGo };
  return (
    <section ref={within} className="did" aria-labelledby={head} data-kept={isKept}>
      <h3 id={head} className="did-says">
        <DidSays digest={digest} />
      </h3>
      <TypedOver session={session} digest={digest} />
      {nothing === undefined ? null : <p className="quiet">{nothing}</p>}
      <table className="did-lines">
        <thead className="visually-hidden">
          <tr>
            <th scope="col">Result</th>
            <th scope="col">Before</th>
            <th scope="col">Now, with the difference</th>
          </tr>
        </thead>
        <Lines {...go} lines={lines.slice(0, first)} />
        <Checks {...go} turned={turned} />
        <Lines {...go} lines={lines.slice(first)} />
        {all ? <Lines {...go} lines={others()} bySheet /> : null}
        {since === undefined ? null : (
          <>
            <tbody>
              <tr className="did-since">
                <th colSpan={3} scope="rowgroup">
                  {since.says}
                </th>
              </tr>
            </tbody>
            <Lines {...go} lines={since.lines} />
            <Checks {...go} turned={since.turned} />
          </>
        )}
      </table>
      {all && more > AT_MOST ? (
        <p className="quiet">{(more - AT_MOST).toLocaleString('en-US')} more are on the sheets.</p>
      ) : null}
      {id === 0 ? null : (
        <div className="did-actions">
          {more === 0 ? null : (
            <button
              type="button"
              className="button-plain"
              aria-expanded={all}
              onClick={() => setOpened(all ? undefined : id)}
            >
              {all ? 'Show fewer' : `and ${more.toLocaleString('en-US')} more`}
            </button>
          )}
          <Back session={session} digest={digest} />
          <Keep session={session} digest={digest} isKept={isKept} />
        </div>
      )}
    </section>
  );
}

/** That a formula was typed over, with the way back to it for as long as it is. */
function TypedOver({ session, digest }: { readonly session: Session; readonly digest: Digest }) {
  const { book } = session;
  const cells = digest.overridden.flatMap((ids) => {
    const at = book.placeOf(ids);
    return at === undefined || book.cell(at).override === undefined ? [] : [at];
  });
  if (cells.length === 0) return null;
  const it = cells.length === 1 ? 'the cell stays' : 'the cells stay';
  return (
    <p className="did-over-formula">
      <StateIcon state="care" />{' '}
      <span>
        {typedOver(digest)}: {it} as typed.{' '}
        {session.mayChange ? (
          <button
            type="button"
            className="button-plain"
            onClick={() => {
              for (const sheet of new Set(cells.map((at) => at.sheet))) {
                const of = cells.filter((at) => at.sheet === sheet);
                session.apply({ do: 'restore', sheet, cells: of });
              }
            }}
          >
            Restore the formula{cells.length === 1 ? '' : 's'}
          </button>
        ) : null}
      </span>
    </p>
  );
}

const ORDER: readonly CheckState['state'][] = ['pass', 'care', 'unknown', 'stop'];

const isWorse = (was: CheckState, is: CheckState): boolean =>
  ORDER.indexOf(is.state) > ORDER.indexOf(was.state);

interface LinesProps extends DidFoldProps {
  readonly lines: readonly DidLine[];
  /** With the name of each sheet over its lines. */
  readonly bySheet?: boolean;
}

function Lines({ lines, bySheet = false, ...go }: LinesProps) {
  if (lines.length === 0) return null;
  return (
    <tbody>
      {lines.flatMap((line, i) => {
        const { sheet, row, column } = line.ids;
        const isNew = bySheet && line.sheet !== lines[i - 1]?.sheet;
        const key = `${sheet} ${row} ${column}`;
        return [
          isNew ? (
            <tr key={`${key} sheet`} className="did-sheet">
              <th colSpan={3} scope="rowgroup">
                {line.sheet}
              </th>
            </tr>
          ) : null,
          <Line key={key} line={line} {...go} />,
        ];
      })}
    </tbody>
  );
}

function Line({ line, session, onGo }: DidFoldProps & { readonly line: DidLine }) {
  const { ids, label, name, title, was, is, by, without } = line;
  const beside = by ?? without;
  const press = (): void => {
    const at = session.book.placeOf(ids);
    if (at === undefined) session.say(`${label} is gone.`);
    else onGo(at);
  };
  return (
    <tr>
      <th scope="row">
        <button
          type="button"
          className="did-go"
          title={title}
          // Labels are alike now and then; with their places no two are.
          aria-label={title}
          onClick={press}
        >
          {label}
        </button>
        {name === undefined ? null : <span className="did-name">{name}</span>}
      </th>
      <td className="did-was" title={was}>
        {was}
      </td>
      <td className="did-is" title={is}>
        <span aria-hidden="true">→ </span>
        {is}
        {beside === undefined ? null : (
          <>
            {' '}
            <span className="did-by" title={beside}>
              {beside}
            </span>
          </>
        )}
      </td>
    </tr>
  );
}

function Checks({ turned, session, onGo }: DidFoldProps & { readonly turned: readonly Turned[] }) {
  if (turned.length === 0) return null;
  return (
    <tbody>
      {turned.map(({ was, is }, i) => (
        <tr key={is.id} className="did-check" data-state={is.state}>
          <td colSpan={3}>
            <div>
              <StateIcon state={is.state} />
              {/* The sentence leads, and is said once where many cannot tell for one reason. */}
              {is.state === 'pass' || is.says === turned[i - 1]?.is.says ? null : (
                <p>{saidByWords(is, session.book)}</p>
              )}
              <button
                type="button"
                className="did-go"
                onClick={() => {
                  const [at] = session.book.placesToMend(is.id);
                  if (at !== undefined) onGo(at);
                }}
              >
                {is.name}
              </button>
              <span className="did-state">
                {STATE_WORDS[was.state]} → <strong>{STATE_WORDS[is.state]}</strong>
              </span>
            </div>
          </td>
        </tr>
      ))}
    </tbody>
  );
}

/** Leads back from the change, or says why nothing does. */
function Back({ session, digest }: { readonly session: Session; readonly digest: Digest }) {
  const { effects } = session;
  const state = useSyncExternalStore(effects.state.watch, () => effects.state.value);
  if (!session.mayChange) return null;
  const { label, does } = wayBack(digest.effect, state);
  return (
    <button
      type="button"
      className="button"
      disabled={does === undefined}
      onClick={() => does?.(session)}
    >
      {label}
    </button>
  );
}

function Keep({ session, digest, isKept }: Omit<DidProps, 'onGo'>) {
  const teller = tellerOf(session);
  return isKept ? (
    <button type="button" className="button" onClick={() => teller.dismiss(digest.id)}>
      Dismiss
    </button>
  ) : (
    <button type="button" className="button" onClick={() => teller.keep(digest.id)}>
      Keep to compare
    </button>
  );
}

import { type ListedTemplate, MOST_COUNTED } from '@kerfbook/protocol';
import { type FormEvent, useCallback, useId, useState } from 'react';
import { CardFacts } from '../gallery/card-face.tsx';
import '../gallery/gallery.css';
import { Complaint, OnItsWay } from './complaint.tsx';
import { askClub, refusal } from './here.ts';
import { ShelfPicture } from './shelf-picture.tsx';
import { useAsked } from './use-asked.ts';
import { cardFacts, counted, LICENCE_SHORT } from './words.ts';

/** What is looked for on the shelf. */
export interface Wanted {
  readonly find: string;
  readonly kind: string;
  readonly wood: string;
  readonly joint: string;
  /** Index in the list of sizes; empty for any. */
  readonly size: string;
  readonly order: 'changed' | 'thanks' | 'built';
}

/** Everything on the shelf, the newest first. */
export const EVERYTHING: Wanted = {
  find: '',
  kind: '',
  wood: '',
  joint: '',
  size: '',
  order: 'changed',
};

/** Bounds of the longest measure, mm, with the words in inches and in millimeters; each pair is the same measure, rounded. */
const SIZES = [
  ['0-609', 'up to 24 in', 'up to 600 mm'],
  ['610-1219', '24 to 48 in', '600 to 1,200 mm'],
  ['1220-2438', '4 to 8 ft', '1,200 to 2,400 mm'],
  ['2439-100000', 'over 8 ft', 'over 2,400 mm'],
] as const;

const ORDERS = [
  ['changed', 'Newest first'],
  ['thanks', 'Most thanked first'],
  ['built', 'Most built first'],
] as const;

interface BrowseProps {
  /** Sizes are told in inches, as the workbook that is open counts. */
  readonly inches: boolean;
  readonly wanted: Wanted;
  readonly onWant: (wanted: Wanted) => void;
  readonly onTemplate: (id: string) => void;
}

/** All templates of the shelf as cards: found by words, narrowed by what they are, in an order. */
export function Browse({ inches, wanted, onWant, onTemplate }: BrowseProps) {
  const [typed, setTyped] = useState(wanted.find);
  const facets = useAsked(useCallback((signal) => askClub('facets', {}, signal), [])).is;
  const submit = (event: FormEvent): void => {
    event.preventDefault();
    onWant({ ...wanted, find: typed.trim() });
  };
  const all = { ...EVERYTHING, order: wanted.order };
  return (
    <>
      <form className="shelf-find" onSubmit={submit}>
        <label className="shelf-find-words">
          Find
          <input
            className="field"
            type="search"
            value={typed}
            maxLength={200}
            autoComplete="off"
            spellCheck={false}
            placeholder="bench, white oak, mortise"
            onChange={(event) => {
              setTyped(event.target.value);
              // The cross in the field empties it: everything is wanted again.
              if (event.target.value === '') onWant({ ...wanted, find: '' });
            }}
          />
        </label>
        <button type="submit" className="button button-main">
          Find
        </button>
      </form>
      <div className="shelf-filters">
        <Filter
          label="What it is"
          any="Anything"
          of={facets?.kinds ?? []}
          chosen={wanted.kind}
          onChoose={(kind) => onWant({ ...wanted, kind })}
        />
        <Filter
          label="Wood"
          any="Any wood"
          of={facets?.woods ?? []}
          chosen={wanted.wood}
          onChoose={(wood) => onWant({ ...wanted, wood })}
        />
        <Filter
          label="Joint"
          any="Any joint"
          of={facets?.joints ?? []}
          chosen={wanted.joint}
          onChoose={(joint) => onWant({ ...wanted, joint })}
        />
        <Choice
          label="Longest measure"
          chosen={wanted.size}
          onChoose={(size) => onWant({ ...wanted, size })}
          choices={[
            ['', 'Any size'],
            ...SIZES.map(([bounds, us, metric]) => [bounds, inches ? us : metric] as const),
          ]}
        />
        <Choice
          label="Order"
          chosen={wanted.order}
          onChoose={(order) => onWant({ ...wanted, order: order as Wanted['order'] })}
          choices={ORDERS}
        />
      </div>
      <Cards
        key={JSON.stringify(wanted)}
        wanted={wanted}
        onTemplate={onTemplate}
        onAll={() => {
          setTyped('');
          onWant(all);
        }}
      />
    </>
  );
}

interface ChoiceProps {
  readonly label: string;
  readonly chosen: string;
  readonly choices: readonly (readonly [value: string, says: string])[];
  readonly onChoose: (value: string) => void;
}

function Choice({ label, chosen, choices, onChoose }: ChoiceProps) {
  const id = useId();
  return (
    <div className="shelf-filter">
      <label htmlFor={id}>{label}</label>
      <select
        id={id}
        className="field"
        value={chosen}
        onChange={({ currentTarget }) => onChoose(currentTarget.value)}
      >
        {choices.map(([value, says]) => (
          <option key={value} value={value}>
            {says}
          </option>
        ))}
      </select>
    </div>
  );
}

interface FilterProps extends Omit<ChoiceProps, 'choices'> {
  readonly any: string;
  readonly of: readonly (readonly [word: string, many: number])[];
}

/** Words that templates have, each with how many; the chosen one also where none has it any more. */
function Filter({ any, of, chosen, ...rest }: FilterProps) {
  const known = of.some(([word]) => word === chosen);
  const more = chosen === '' || known ? [] : [[chosen, chosen] as const];
  return (
    <Choice
      {...rest}
      chosen={chosen}
      choices={[
        ['', any],
        ...of.map(
          ([word, many]) =>
            [word, `${word} (${many < MOST_COUNTED ? many : `${MOST_COUNTED} or more`})`] as const,
        ),
        ...more,
      ]}
    />
  );
}

interface CardsProps {
  readonly wanted: Wanted;
  readonly onTemplate: (id: string) => void;
  readonly onAll: () => void;
}

interface Part {
  readonly templates: readonly ListedTemplate[];
  readonly next?: string | undefined;
}

function Cards({ wanted, onTemplate, onAll }: CardsProps) {
  const { find, kind, wood, joint, size, order } = wanted;
  const part = useCallback(
    (signal?: AbortSignal, after?: string): Promise<Part> =>
      askClub(
        'browse',
        {
          query: {
            order,
            ...(find === '' ? {} : { find }),
            ...(kind === '' ? {} : { kind }),
            ...(wood === '' ? {} : { wood }),
            ...(joint === '' ? {} : { joint }),
            ...(size === '' ? {} : { longest: size }),
            ...(after === undefined ? {} : { after }),
          },
        },
        signal,
      ),
    [find, kind, wood, joint, size, order],
  );
  const first = useAsked(useCallback((signal) => part(signal), [part]));
  const [more, setMore] = useState<readonly Part[]>([]);
  const [says, setSays] = useState<string>();
  const [busy, setBusy] = useState(false);
  if (first.is === undefined) {
    return <OnItsWay says={first.says} what="Reading the shelf …" again={first.again} />;
  }
  const parts = [first.is, ...more];
  const { next } = parts.at(-1) ?? first.is;
  const templates = parts.flatMap((one) => one.templates);
  const narrowed = [find, kind, wood, joint, size].some((one) => one !== '');
  const go = (): void => {
    setBusy(true);
    setSays(undefined);
    part(undefined, next)
      .then(
        (one) => setMore([...more, one]),
        (error: unknown) => setSays(refusal(error)),
      )
      .finally(() => setBusy(false));
  };
  if (templates.length === 0) {
    return narrowed ? (
      <div className="shelf-empty" role="status">
        <p>No template on the shelf has all of this.</p>
        <p className="actions">
          <button type="button" className="button" onClick={onAll}>
            Show all templates
          </button>
        </p>
      </div>
    ) : (
      <p className="shelf-empty" role="status">
        Nothing is on the shelf yet. Open a workbook, then choose "Publish on the shelf" in the
        menu.
      </p>
    );
  }
  return (
    <>
      <p className="visually-hidden" role="status">
        {counted(templates.length, 'template')}
        {next === undefined ? '' : ', and more'}
      </p>
      <ul className="shelf-cards" aria-label="Templates">
        {templates.map((one) => (
          <TemplateCard key={one.id} one={one} onTemplate={onTemplate} />
        ))}
      </ul>
      <Complaint says={says} />
      {next === undefined ? null : (
        <p className="actions">
          <button type="button" className="button" disabled={busy} onClick={go}>
            Show more templates
          </button>
        </p>
      )}
    </>
  );
}

interface TemplateCardProps {
  readonly one: ListedTemplate;
  readonly onTemplate: (id: string) => void;
}

function TemplateCard({ one, onTemplate }: TemplateCardProps) {
  const { id, title, by, card, picture, licence, revision, thanks, built, hidden } = one;
  return (
    <li className="book-row">
      <ShelfPicture id={picture} says="" className="card-picture" />
      <h3 className="card-title">
        <button type="button" className="button-plain card-open" onClick={() => onTemplate(id)}>
          {title}
        </button>
      </h3>
      <p className="quiet">
        By {by.name}, revision {revision}, {LICENCE_SHORT[licence]}
      </p>
      {hidden === true ? <p className="complaint">Hidden by a keeper of the shelf</p> : null}
      {card.about === undefined ? null : <p>{card.about}</p>}
      <CardFacts card={cardFacts(card)} />
      <p className="quiet shelf-counts">
        {counted(thanks, 'thanks', 'thanks')} · built {counted(built, 'time')}
      </p>
    </li>
  );
}

import { FIGURES, type FigureKind, type FigureSaid, figureIn, GROOVE_CUTS } from '@kerfbook/guide';
import { type At, type OpenWorkbook, withUnit } from '@kerfbook/workbook';
import { useId, useState } from 'react';
import type { NoteDraft } from './drafts.ts';
import type { Seen } from './guide-page.tsx';
import { StepField } from './step-field.tsx';
import type { StepHands } from './steps-room.tsx';
import { cellOf, entryEdit, type StepHead, type StepRow, type StepsTable } from './steps-table.ts';

export interface StepFormProps {
  readonly seen: Seen;
  readonly table: StepsTable;
  readonly step: StepRow;
  /** Which of the rows it is. */
  readonly at: number;
  readonly hands: StepHands;
  /** Hears of what is being written in a field. */
  readonly onDraft: NoteDraft;
  readonly onGo: (at: At) => void;
  readonly onPhotos: () => void;
}

/** What a figure may show, as it is chosen. */
const FIGURE_WORDS: Readonly<Record<FigureKind, string>> = {
  assembly: 'The parts it builds, in their place',
  'turned over': 'The same upside down, such as a base on its top',
  'glue-up': 'Boards and clamps of the glue-up',
  groove: 'The groove, and how it is cut',
  'pocket holes': 'Pocket holes and their screws, cut open',
  joint: 'A joint, cut open',
  fasteners: 'Where the fasteners stand',
  seasons: 'The gap through the seasons',
  cutting: 'The cutting plan',
  parts: 'The finished piece, each part named',
  stack: 'Boards on stickers, and their moisture',
  milling: 'A board from rough to square',
  flattening: 'A panel planed flat',
  squaring: 'A panel cut to size and square',
  outline: 'The outline of a panel, and how it is drawn',
  edge: 'The edge of a panel, cut across',
  sanding: 'The grits one after the other',
  sizes: 'Parts lying flat, with their sizes',
  tenons: 'The tenons of a panel and their pegs',
  taper: 'The taper of a leg',
  slots: 'A screw in its slot',
  buttons: 'A button in its groove',
  'dry fit': 'The base from above, with its diagonals',
  'panel gap': 'A panel in the grooves of its frame',
  coats: 'The coats of finish, one after the other',
  boards: 'What to look for in boards at the yard',
  marking: 'What is marked out on a face of a part',
  screws: 'The screws under a top, from below',
  opening: 'An opening, and how it is measured',
  gaps: 'Doors in their opening, and their gaps',
  hinges: 'Butt hinges along the edge of a door',
  banding: 'The edges that are banded',
  layers: 'Layers glued into one part, in their clamps',
  rod: 'A rod through the column, cut open',
  bars: 'The sizes of the step as bars',
  none: 'No figure',
};

/** Ways to cut a groove, as they are chosen. */
const GROOVE_WORDS: Readonly<Record<(typeof GROOVE_CUTS)[number], string>> = {
  sawn: 'At the table saw',
  routed: 'With a router',
};

/** A figure of a groove as it is written, with another way to cut it. */
function grooveWords({ of }: FigureSaid, cut: string): string {
  const words = [of ?? '', cut].filter((word) => word !== '').join(', ');
  return words === '' ? 'groove' : `groove: ${words}`;
}

/** A step with all its fields; each is the cell of the steps table. */
export function StepForm(props: StepFormProps) {
  const { seen, table, step, at, hands, onDraft, onGo, onPhotos } = props;
  const { session } = seen;
  const field = { seen, table, row: step.row, onDraft };
  return (
    <section className="plan-form" aria-label={`The step ${step.title}`}>
      <header>
        <h2>
          {step.numbers === undefined
            ? 'Not at this size'
            : `Step ${step.numbers} of ${seen.plan.steps.length}`}
        </h2>
        <p className="actions">
          {session.mayChange ? (
            <>
              <button
                type="button"
                className="button"
                disabled={at === 0}
                onClick={() => hands.move(-1)}
              >
                Move up
              </button>
              <button
                type="button"
                className="button"
                disabled={at === table.rows.length - 1}
                onClick={() => hands.move(1)}
              >
                Move down
              </button>
              <button type="button" className="button" onClick={hands.duplicate}>
                Duplicate
              </button>
              <button type="button" className="button button-danger" onClick={hands.remove}>
                Delete
              </button>
            </>
          ) : null}
        </p>
      </header>
      <StepField {...field} head="step" label="Step" hint="What is done, in a few words." />
      <StepField
        {...field}
        head="text"
        label="How it is done"
        hint="{ offers your named cells: the number follows the size. A new line begins a new paragraph."
        isLong
      />
      <Builds {...field} />
      <Figure {...field} />
      <Measures {...field} />
      <Photo {...field} onPhotos={onPhotos} />
      <StepField {...field} head="tools" label="Tools" hint="With commas between." />
      <StepField
        {...field}
        head="hardware"
        label="Screws, glue and the like"
        hint="With commas between."
      />
      <StepField
        {...field}
        head="caution"
        label="Caution"
        hint="What can hurt here, and what prevents it."
        isLong
      />
      <div className="plan-pairs">
        <StepField {...field} head="hands-on" label="Hands-on time" />
        <StepField {...field} head="waiting" label="Waiting time" />
        <StepField
          {...field}
          head="when"
          label="Only when"
          hint="yes, no or a formula, such as =top_length>84; blank for always."
        />
        <StepField {...field} head="repeats" label="How many times" hint="Blank for once." />
      </div>
      <p>
        <button
          type="button"
          className="button-plain"
          onClick={() => onGo({ sheet: table.sheet, row: step.row, column: 0 })}
        >
          Go to its row in the workbook
        </button>
      </p>
    </section>
  );
}

interface CellProps {
  readonly seen: Seen;
  readonly table: StepsTable;
  readonly row: number;
  readonly onDraft: NoteDraft;
}

const entryOf = ({ seen, table, row }: CellProps, head: StepHead): string =>
  cellOf(seen.book, table, row, head)?.entry ?? '';

const isFormula = (entry: string): boolean => entry.startsWith('=');

/** What stands in a list of words, and one more. */
const withOne = (entry: string, one: string): string =>
  [...(entry.trim() === '' ? [] : [entry.trim().replace(/,$/, '')]), one].join(', ');

function enter({ seen, table, row }: CellProps, head: StepHead, text: string): void {
  seen.session.apply(entryEdit(seen.book, table, row, head, text));
}

/** The parts that are made or put on in it: written, or added from those that no step builds yet. */
function Builds(props: CellProps) {
  const { seen } = props;
  const { plan } = seen;
  const built = new Set(plan.steps.flatMap(({ parts }) => parts.map(({ name }) => name)));
  const left = [...new Set(plan.parts.parts.map(({ name }) => name))].filter(
    (name) => !built.has(name),
  );
  const entry = entryOf(props, 'builds');
  return (
    <StepField {...props} head="builds" label="Parts made or put on">
      {isFormula(entry) || !seen.session.mayChange ? null : (
        <AddOne
          label="Add a part"
          none="Every part is built in a step."
          options={left.map((name) => ({ value: name, says: name }))}
          onAdd={(name) => enter(props, 'builds', withOne(entry, name))}
        />
      )}
    </StepField>
  );
}

/** The sizes that stand under the figure: names of cells, written or added from those there are. */
function Measures(props: CellProps) {
  const { seen } = props;
  const entry = entryOf(props, 'measure');
  const there = new Set(entry.split(',').map((name) => name.trim().toLowerCase()));
  return (
    <StepField {...props} head="measure" label="Sizes under the figure" isNames>
      {isFormula(entry) || !seen.session.mayChange ? null : (
        <AddOne
          label="Add a size"
          none="No cell with a length has a name yet."
          options={sizesOf(seen.book).filter(({ value }) => !there.has(value.toLowerCase()))}
          onAdd={(name) => enter(props, 'measure', withOne(entry, name))}
        />
      )}
    </StepField>
  );
}

/** Named cells that hold a length, with what they show. */
const sizesOf = (book: OpenWorkbook): readonly Choice[] =>
  book.names().flatMap(({ name, at }) => {
    const { quantity, shown, unit } = book.cell(at);
    if (quantity !== 'length' && quantity !== 'angle') return [];
    return [{ value: name, says: `${name}, ${withUnit(shown.text, unit)}` }];
  });

interface Choice {
  readonly value: string;
  readonly says: string;
}

interface AddOneProps {
  readonly label: string;
  readonly none: string;
  readonly options: readonly Choice[];
  readonly onAdd: (value: string) => void;
}

/** Adds one of several to what is written. */
function AddOne({ label, none, options, onAdd }: AddOneProps) {
  if (options.length === 0) return <p className="quiet">{none}</p>;
  return (
    <select
      className="field plan-add"
      aria-label={label}
      value=""
      onChange={({ currentTarget }) => {
        if (currentTarget.value !== '') onAdd(currentTarget.value);
      }}
    >
      <option value="">{label} …</option>
      {options.map(({ value, says }) => (
        <option key={value} value={value}>
          {says}
        </option>
      ))}
    </select>
  );
}

/** What the figure shows: chosen, or a formula. Of a joint also which one. */
function Figure(props: CellProps) {
  const { seen } = props;
  const entry = entryOf(props, 'figure');
  const [asFormula, setAsFormula] = useState(false);
  const id = useId();
  const figure = figureIn(entry.trim() === '' ? undefined : entry);
  if (isFormula(entry) || figure === undefined || asFormula) {
    return (
      <StepField
        {...props}
        head="figure"
        label="Figure"
        hint={`One of: ${FIGURES.join(', ')}. Blank: assembly.`}
      />
    );
  }
  const joints = figure.kind === 'joint' ? jointsOf(seen.book) : [];
  return (
    <div className="plan-field">
      <label htmlFor={id}>Figure</label>
      <select
        id={id}
        className="field"
        data-head="figure"
        value={figure.kind}
        disabled={!seen.session.mayChange}
        onChange={({ currentTarget }) => {
          const { value } = currentTarget;
          if (value === 'formula') setAsFormula(true);
          else enter(props, 'figure', value === 'assembly' ? '' : value);
        }}
      >
        {FIGURES.map((kind) => (
          <option key={kind} value={kind}>
            {FIGURE_WORDS[kind]}
          </option>
        ))}
        <option value="formula">Write it as a formula …</option>
      </select>
      {figure.kind !== 'groove' ? null : (
        <select
          className="field plan-add"
          aria-label="How the groove is cut"
          value={figure.cut ?? ''}
          disabled={!seen.session.mayChange}
          onChange={({ currentTarget: { value } }) =>
            enter(props, 'figure', grooveWords(figure, value))
          }
        >
          <option value="">As its tools say</option>
          {GROOVE_CUTS.map((cut) => (
            <option key={cut} value={cut}>
              {GROOVE_WORDS[cut]}
            </option>
          ))}
        </select>
      )}
      {joints.length === 0 ? null : (
        <select
          className="field plan-add"
          aria-label="Which joint"
          value={figure.of ?? ''}
          disabled={!seen.session.mayChange}
          onChange={({ currentTarget: { value } }) =>
            enter(props, 'figure', value === '' ? 'joint' : `joint: ${value}`)
          }
        >
          <option value="">The first joint of its parts</option>
          {[...new Set([...joints, ...(figure.of === undefined ? [] : [figure.of])])].map((one) => (
            <option key={one} value={one}>
              {one}
            </option>
          ))}
        </select>
      )}
    </div>
  );
}

/** The joints of the joints table, as a figure names them: `Long apron into Leg`. */
function jointsOf(book: OpenWorkbook): readonly string[] {
  const table = book.tables().find(({ kind }) => kind === 'joints');
  if (table === undefined) return [];
  const { sheet, header, last } = table;
  const word = (row: number, column: number): string =>
    book.cell({ sheet, row, column }).shown.text.trim();
  const columns = Array.from({ length: book.sheet(sheet)?.columns ?? 0 }, (_, column) => column);
  const of = (head: string) =>
    columns.find((column) => word(header, column).toLowerCase() === head);
  const [part, into] = [of('part'), of('into')];
  if (part === undefined || into === undefined) return [];
  const rows = Array.from({ length: last - header }, (_, i) => header + 1 + i);
  const said = rows.flatMap((row) => {
    const [one, other] = [word(row, part), word(row, into)];
    return one === '' ? [] : [other === '' ? one : `${one} into ${other}`];
  });
  return [...new Set(said)];
}

/** Which photograph of the workbook stands in it. */
function Photo(props: CellProps & { readonly onPhotos: () => void }) {
  const { seen, onPhotos } = props;
  const entry = entryOf(props, 'photo');
  const id = useId();
  const names = Object.keys(seen.book.head.photos ?? {});
  if (isFormula(entry)) return <StepField {...props} head="photo" label="Photograph" />;
  const isGone = entry !== '' && !names.includes(entry);
  return (
    <div className="plan-field">
      <label htmlFor={id}>Photograph</label>
      <div className="plan-beside">
        {names.length === 0 && !isGone ? (
          <span className="quiet">None in this workbook yet.</span>
        ) : (
          <select
            id={id}
            className="field"
            data-head="photo"
            value={entry}
            disabled={!seen.session.mayChange}
            onChange={({ currentTarget }) => enter(props, 'photo', currentTarget.value)}
          >
            <option value="">No photograph</option>
            {[...names, ...(isGone ? [entry] : [])].map((name) => (
              <option key={name} value={name}>
                {isGone && name === entry ? `${name} (not in this workbook)` : name}
              </option>
            ))}
          </select>
        )}
        <button type="button" className="button" onClick={onPhotos}>
          {names.length === 0 ? 'Add photographs' : 'Photographs'}
        </button>
      </div>
    </div>
  );
}

import type { At } from '@kerfbook/workbook';
import { useEffect, useRef, useState } from 'react';
import { useDrafts } from './drafts.ts';
import type { Seen } from './guide-page.tsx';
import { StepForm, type StepFormProps } from './step-form.tsx';
import { StepList } from './step-list.tsx';
import { StepSeen } from './step-seen.tsx';
import {
  deleteEdit,
  duplicateEdit,
  moveEdit,
  newStepEdit,
  type Placed,
  type StepRow,
  type StepsTable,
} from './steps-table.ts';

/** A step that was asked for, and what of it takes the focus. */
export interface Wanted {
  readonly row: number;
  readonly head: string;
}

interface StepsRoomProps {
  readonly seen: Seen;
  readonly table: StepsTable;
  readonly wanted: Wanted | undefined;
  readonly onWanted: (wanted: Wanted | undefined) => void;
  readonly onGo: (at: At) => void;
  readonly onPhotos: () => void;
}

/** What can be done with a step as a whole. */
export interface StepHands {
  readonly add: () => void;
  readonly move: (by: 1 | -1) => void;
  readonly duplicate: () => void;
  readonly remove: () => void;
}

/** The list of the steps, the chosen one with its fields, and beside it what readers get of it. */
export function StepsRoom({ seen, table, wanted, onWanted, onGo, onPhotos }: StepsRoomProps) {
  const { session, book } = seen;
  const [chosen, setChosen] = useState<{ readonly id: string; readonly row: number }>();
  const room = useRef<HTMLDivElement>(null);
  const at = chosenOf(table.rows, chosen);
  const step = table.rows[at];
  /** Chooses a step by its row, once the table is there as it is now. */
  const choose = (row: number): void => {
    const id = book.idsAt({ sheet: table.sheet, row, column: 0 })?.row ?? '';
    setChosen({ id, row });
  };
  useEffect(() => {
    if (wanted === undefined) return undefined;
    const id = book.idsAt({ sheet: table.sheet, row: wanted.row, column: 0 })?.row ?? '';
    setChosen({ id, row: wanted.row });
    // The fields of the step have to be there first, and what was typed before is read anew behind the frame.
    const later = setTimeout(() => {
      const field = room.current?.querySelector<HTMLElement>(`[data-head="${wanted.head}"]`);
      field?.scrollIntoView({ block: 'center' });
      field?.focus({ preventScroll: true });
      if (field instanceof HTMLInputElement) field.select();
      onWanted(undefined);
    }, 60);
    return () => clearTimeout(later);
  }, [wanted, book, table.sheet, onWanted]);
  const place = (placed: Placed | undefined, said: string, head?: string): void => {
    if (placed === undefined || !session.mayShape()) return;
    if (!session.apply(placed.edit, said).ok) return;
    choose(placed.row);
    if (head !== undefined) onWanted({ row: placed.row, head });
  };
  const hands: StepHands = {
    add: () => place(newStepEdit(book, table, step?.row, 'New step'), 'A step was added.', 'step'),
    move: (by) => {
      if (step === undefined) return;
      place(
        moveEdit(book, table, step.row, by),
        `The step "${step.title}" was moved ${by < 0 ? 'up' : 'down'}.`,
      );
    },
    duplicate: () => {
      if (step === undefined) return;
      place(
        duplicateEdit(book, table, step.row),
        `The step "${step.title}" is there once more. What it builds stays with the first.`,
        'step',
      );
    },
    remove: () => {
      if (step === undefined || !session.mayShape()) return;
      const next = table.rows[at + 1] ?? table.rows[at - 1];
      const done = session.apply(
        deleteEdit(table, step.row),
        `The step "${step.title}" was deleted.`,
      );
      if (done.ok && next !== undefined) setChosen({ id: next.id, row: next.row });
    },
  };
  return (
    <div ref={room} className="plan-steps">
      <StepList
        seen={seen}
        table={table}
        chosen={step}
        hands={hands}
        onChoose={({ row }) => {
          choose(row);
          // Under each other the step opens below the list.
          requestAnimationFrame(() =>
            room.current?.querySelector('.plan-form')?.scrollIntoView({ block: 'nearest' }),
          );
        }}
      />
      {step === undefined ? (
        <p className="plan-begin quiet">
          No step is written yet. Press "New step", and say in a few words what is done first.
        </p>
      ) : (
        <StepAtHand key={step.id} {...{ seen, table, step, at, hands, onGo, onPhotos }} />
      )}
    </div>
  );
}

/** A step with its fields, and what readers get of it as it is being written. */
function StepAtHand(props: Omit<StepFormProps, 'onDraft'>) {
  const { seen, table, step } = props;
  const [drafts, note] = useDrafts();
  return (
    <>
      <StepForm {...props} onDraft={note} />
      <StepSeen seen={seen} table={table} step={step} drafts={drafts} />
    </>
  );
}

/** Which step is chosen now: the same wherever it went, else the one that stands there. */
function chosenOf(
  rows: readonly StepRow[],
  chosen: { readonly id: string; readonly row: number } | undefined,
): number {
  if (chosen === undefined) return rows.length === 0 ? -1 : 0;
  const same = rows.findIndex(({ id }) => id === chosen.id);
  if (same >= 0) return same;
  const there = rows.findIndex(({ row }) => row >= chosen.row);
  return there < 0 ? rows.length - 1 : there;
}

import { applyChanges } from '../changes/apply.ts';
import { changesBetween } from '../changes/between.ts';
import type { Change } from '../changes/types.ts';
import { type RefusedResult, refuse } from '../faults/catalogue.ts';
import { saveText } from '../format/save.ts';
import { type BookDocument, LIMITS } from '../format/schema.ts';
import { keptByIds } from '../loading/kept-by-ids.ts';
import { lettersNow, megabytes } from '../state/letters.ts';
import { BookState } from '../state/state.ts';
import { healed } from './heal.ts';
import { namedOnce } from './named-once.ts';
import type { MergeConflict, Merging, Side } from './sides.ts';
import { tell } from './sides.ts';
import { wantedTogether } from './wanted.ts';

/** What one maker did to a workbook since a state that another one has too. */
export interface Log {
  /** How sentences call it: a file, a person. */
  readonly name: string;
  /**
   * Puts logs in the order of the law, whoever merges them: the one whose tag comes first is carried out
   * first. Where tags are alike or left out, what both come to decides, by its saved text.
   */
  readonly tag?: string;
  /** In the order they were carried out. */
  readonly changes: readonly Change[];
}

/** What came of two logs together. */
export interface Merged {
  /** It is refused else. */
  readonly ok: true;
  /** The merged workbook. */
  readonly document: BookDocument;
  /** What makes the merged workbook of what each log came to, in the order the logs were given. */
  readonly changes: readonly [readonly Change[], readonly Change[]];
  /** What does not stand as it was meant, or may not go together. */
  readonly conflicts: readonly MergeConflict[];
}

/**
 * Puts together what two did to one workbook, each in the smallest changes it came to (rules H7, H8).
 * What does not go together is told, and what of it does not stand is kept with that. Refused only
 * where the whole would be more than a workbook may take.
 */
export function mergeLogs(base: BookDocument, logs: readonly [Log, Log]): Merged | RefusedResult {
  const before = BookState.of(base);
  const states = logs.map(({ changes }) => applyChanges(before, changes).state);
  const common = keptByIds(before);
  const sides = states.map((state, at): Ordered => {
    const kept = keptByIds(state);
    const { name = '', tag = '' } = logs[at] ?? {};
    const side = { name, state: kept, changes: changesBetween(common, kept) };
    return { side, tag, text: saveText(kept.document()) };
  });
  const [first, second] = [...sides].sort(byLaw).map(({ side }) => side);
  if (first === undefined || second === undefined) throw new RangeError('there are two logs');
  const merging: Merging = { base: common, first, second, conflicts: [] };
  const state = together(merging);
  const letters = lettersNow(state);
  if (letters > LIMITS.book) return refuse('W21', megabytes(letters));
  const [one, other] = states.map((from) => changesBetween(from, state));
  return {
    ok: true,
    document: state.document(),
    changes: [one ?? [], other ?? []],
    conflicts: merging.conflicts,
  };
}

interface Ordered {
  readonly side: Side;
  readonly tag: string;
  readonly text: string;
}

const byLaw = (a: Ordered, b: Ordered): number => order(a.tag, b.tag) || order(a.text, b.text);

const order = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

function together(merging: Merging): BookState {
  const wanted = namedOnce(merging, healed(merging, wantedTogether(merging)));
  const done = applyChanges(merging.base, changesBetween(merging.base, BookState.of(wanted)));
  for (const { change, ...complaint } of done.conflicts) tell(merging, complaint, [change]);
  return keptByIds(done.state);
}

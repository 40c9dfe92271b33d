import type { Edit } from '@kerfbook/workbook';
import type { Run, Step } from './edit-steps.ts';

/** What is left of a list when everything is taken out without which it still fails. */
export function smallest<T>(all: readonly T[], fails: (some: readonly T[]) => boolean): T[] {
  let kept = [...all];
  for (
    let size = Math.ceil(kept.length / 2);
    size >= 1;
    size = size === 1 ? 0 : Math.ceil(size / 2)
  ) {
    for (let from = kept.length - size; from > -size; from -= size) {
      const less = kept.filter((_, i) => i < from || i >= from + size);
      if (less.length < kept.length && fails(less)) kept = less;
    }
  }
  return kept;
}

/** The same failing run with fewer steps, and fewer cells and parts in them. */
export function smallestRun(run: Run, fails: (run: Run) => boolean): Run {
  let kept = run;
  const keep = (less: Run): boolean => {
    if (!fails(less)) return false;
    kept = less;
    return true;
  };
  for (let before = ''; before !== JSON.stringify(kept); ) {
    before = JSON.stringify(kept);
    for (const less of ['undo', 'look', 'rows'] as const) {
      const { [less]: _, ...rest } = kept;
      keep(rest);
    }
    smallest(kept.steps, (steps) => keep({ ...kept, steps: [...steps] }));
    for (let i = 0; i < kept.steps.length; i += 1) {
      for (const less of simpler(kept.steps[i] as Step)) {
        keep({ ...kept, steps: kept.steps.map((step, at) => (at === i ? less : step)) });
      }
    }
  }
  return kept;
}

/** A step with one thing less. */
function simpler(step: Step): Step[] {
  if ('pace' in step && step.pace !== undefined) {
    const { pace: _, ...rest } = step;
    return [rest as Step];
  }
  if ('long' in step) {
    const wholes = step.long.map((edit): Step => ({ edit }));
    return [...wholes, ...without(step.long).map((long): Step => ({ ...step, long }))];
  }
  if (!('edit' in step)) return [];
  return simplerEdits(step.edit).map((edit): Step => ({ ...step, edit }));
}

function simplerEdits(edit: Edit): Edit[] {
  const parts = edit.do === 'batch' ? edit.edits : [];
  return [...parts, ...withLess(edit)];
}

/** The same with one member less in one of its lists, however deep. */
function withLess<T>(whole: T): T[] {
  if (typeof whole !== 'object' || whole === null) return [];
  if (Array.isArray(whole)) {
    const fewer = whole.length > 1 ? without(whole) : [];
    const less = whole.flatMap((one, i) =>
      withLess(one).map((smaller) => whole.map((other, at) => (at === i ? smaller : other))),
    );
    return [...fewer, ...less] as T[];
  }
  return Object.entries(whole).flatMap(([key, part]) =>
    withLess(part).map((smaller) => ({ ...whole, [key]: smaller })),
  );
}

const without = <T>(list: readonly T[]): T[][] =>
  list.map((_, i) => list.filter((__, at) => at !== i));

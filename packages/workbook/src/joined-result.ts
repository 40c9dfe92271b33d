import type { At } from '@kerfbook/document';
import type { Applied } from './api.ts';

/** What several edits did, as one. */
export function joinedResult(results: readonly Applied[]): Applied {
  const changed = new Map<string, At>();
  for (const one of results) {
    for (const at of one.changed) changed.set(`${at.sheet} ${at.row} ${at.column}`, at);
  }
  return {
    ok: true,
    edit: { do: 'change', changes: results.flatMap(({ edit }) => edit.changes) },
    inverse: {
      do: 'change',
      changes: [...results].reverse().flatMap(({ inverse }) => inverse.changes),
    },
    changed: [...changed.values()],
    checks: [...new Set(results.flatMap(({ checks }) => checks))],
    structure: results.some(({ structure }) => structure),
  };
}

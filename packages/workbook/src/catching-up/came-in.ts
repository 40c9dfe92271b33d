import {
  applyChanges,
  type BookDocument,
  BookState,
  changesBetween,
  keptByIds,
  settled,
  type TurnSteps,
} from '@kerfbook/document';

/**
 * How an edit is carried out that was made elsewhere (rule U6): it is no step of undo. Behind a step of here it is turned
 * to before that, as if the step had never been; where both changed the same, what came in stands, and the step holds
 * nothing of it.
 */
export const cameIn: TurnSteps = (now, step, other) => {
  const between = applyChanges(now, other.inverse).state;
  const before = applyChanges(between, step.inverse).state;
  const without = withoutStep(between.document(), before.document(), now.document());
  // Where the two cannot be put apart, the step holds nothing any more.
  const alone = without === undefined ? now : keptByIds(BookState.of(without));
  return [
    { changes: changesBetween(before, alone), inverse: changesBetween(alone, before), cameIn },
    { changes: changesBetween(alone, now), inverse: changesBetween(now, alone) },
  ];
};

function withoutStep(
  base: BookDocument,
  mine: BookDocument,
  theirs: BookDocument,
): BookDocument | undefined {
  const toSettle = { base, mine, theirs, names: { mine: 'before', theirs: 'now' } };
  const first = settled(toSettle);
  if (!first.ok) return undefined;
  const choices = first.conflicts.flatMap(({ spot }) =>
    spot === undefined ? [] : [{ spot, which: 'theirs' as const }],
  );
  if (choices.length === 0) return first.document;
  const done = settled(toSettle, choices);
  return done.ok ? done.document : undefined;
}

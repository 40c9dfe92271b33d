/**
 * A function that keeps its latest answers. Arguments are compared by their JSON text, and answers
 * are frozen through, since everyone who asks the same gets the same object.
 * @param most how many answers are kept; the one asked for longest ago goes first
 */
export function remembered<Job, Answer>(
  answer: (job: Job) => Answer,
  most: number,
): (job: Job) => Answer {
  const kept = new Map<string, Answer>();
  return (job) => {
    // JSON would write NaN and infinity alike.
    const key = JSON.stringify(job, (_, value: unknown) =>
      typeof value === 'number' && !Number.isFinite(value) ? `#${value}` : value,
    );
    const before = kept.get(key);
    if (before !== undefined) {
      kept.delete(key);
      kept.set(key, before);
      return before;
    }
    const fresh = frozen(answer(job));
    kept.set(key, fresh);
    const oldest = kept.keys().next();
    if (kept.size > most && oldest.done !== true) kept.delete(oldest.value);
    return fresh;
  };
}

function frozen<T>(value: T): T {
  if (typeof value !== 'object' || value === null || Object.isFrozen(value)) return value;
  for (const part of Object.values(value)) frozen(part);
  return Object.freeze(value);
}

import { Tick } from '../paper/paper-desk.tsx';
import type { JobLine } from './job-list.ts';

/** Which jobs are taken together, each ticked or not. */
export function ChooseJobs({
  lines,
  chosen,
  onChosen,
}: {
  readonly lines: readonly JobLine[];
  readonly chosen: ReadonlySet<string>;
  readonly onChosen: (chosen: ReadonlySet<string>) => void;
}) {
  return (
    <>
      <legend>Jobs</legend>
      {lines.map((line) => (
        <Tick
          key={line.id}
          says={`${line.title}, ${line.facts.state ?? 'no state'}`}
          on={chosen.has(line.id)}
          onTick={(on) => {
            const next = new Set(chosen);
            if (on) next.add(line.id);
            else next.delete(line.id);
            onChosen(next);
          }}
        />
      ))}
    </>
  );
}

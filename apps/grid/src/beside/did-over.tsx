import { useEffect, useRef, useState, useSyncExternalStore } from 'react';
import { tellerOf } from '../did/teller.ts';
import type { Session } from '../session/session.ts';
import { DidLine } from './did-line.tsx';
import { bringIntoSight } from './into-sight.ts';

interface DidOverProps {
  readonly session: Session;
  /** Whether the list of it is open: where a maker folded it away, nothing tells of it. */
  readonly open: boolean;
}

/**
 * What the last change did in one line over the parts, while its list is scrolled out of sight: what is read there stays
 * where it is, and a change is seen all the same. The line leads to the list.
 */
export function DidOver({ session, open }: DidOverProps) {
  const { state } = tellerOf(session);
  const { last, trying, kept } = useSyncExternalStore(state.watch, () => state.value);
  const within = useRef<HTMLDivElement>(null);
  const [away, setAway] = useState(false);
  const id = (trying ?? last)?.id;
  const lists = kept.length;
  // biome-ignore lint/correctness/useExhaustiveDependencies: with another change, or one kept, another head is the last one.
  useEffect(() => {
    const scroller = within.current?.closest('.beside-body');
    const head = [...(scroller?.querySelectorAll('.fold-did[open] .did-says') ?? [])].at(-1);
    if (!scroller || head === undefined) {
      setAway(false);
      return;
    }
    const seen = new IntersectionObserver(
      (entries) => {
        const entry = entries.at(-1);
        // Slid down, nothing of the panel is in sight, and another line tells of the change.
        if (entry !== undefined) {
          setAway(!entry.isIntersecting && (entry.rootBounds?.height ?? 0) > 0);
        }
      },
      { root: scroller },
    );
    seen.observe(head);
    return () => seen.disconnect();
  }, [open, id, lists]);
  const lead = (): void => {
    const fold = within.current?.closest('.beside-body')?.querySelector('.fold-did');
    const head = [...(fold?.querySelectorAll('.did') ?? [])].at(-1);
    bringIntoSight(head ?? null);
    fold?.querySelector('summary')?.focus({ preventScroll: true });
  };
  return (
    <div ref={within} className="did-over">
      {away ? <DidLine session={session} onOpen={lead} /> : null}
    </div>
  );
}

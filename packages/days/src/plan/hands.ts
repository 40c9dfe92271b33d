import type { Seconds } from '../calendar/moments.ts';
import type { ShopCalendar } from '../calendar/shop-days.ts';
import type { Arc, Task } from './network.ts';
import { MAKER } from './operation.ts';

/** A stretch in which a pair of hands or a machine is taken. */
interface Taken {
  readonly task: number;
  readonly from: Seconds;
  readonly to: Seconds;
  readonly until: Arc['until'];
}

/** Whose hands and which machines are taken when. There is one of each. */
export class Hands {
  readonly #calendar: ShopCalendar;
  readonly #taken = new Map<string, Taken[]>();

  constructor(calendar: ShopCalendar) {
    this.#calendar = calendar;
  }

  /** The first moment from `from` on at which all that a task needs is free for as long as it needs it. */
  firstFree(task: Task, from: Seconds): Seconds {
    let start = task.work > 0 ? this.#calendar.workStart(from) : from;
    for (;;) {
      const hinders = this.#wants(task, start).flatMap(({ name, from: begins, to }) =>
        (this.#taken.get(name) ?? []).filter((one) => one.from < to && begins < one.to),
      );
      if (hinders.length === 0) return start;
      const free = Math.max(...hinders.map(({ to }) => to));
      start = task.work > 0 ? this.#calendar.workStart(free) : free;
    }
  }

  /** Takes what a task needs from the moment on at which it begins. */
  take(task: Task, number: number, start: Seconds): void {
    for (const { name, from, to, until } of this.#wants(task, start)) {
      const taken = this.#taken.get(name) ?? [];
      taken.push({ task: number, from, to, until });
      this.#taken.set(name, taken);
    }
  }

  /** For each task those that had the same hands or the same machine just before it. */
  arcs(count: number): readonly (readonly Arc[])[] {
    const arcs: Arc[][] = Array.from({ length: count }, () => []);
    for (const taken of this.#taken.values()) {
      const inOrder = taken.toSorted((a, b) => a.from - b.from);
      for (const [i, { task }] of inOrder.entries()) {
        const before = inOrder[i - 1];
        if (before !== undefined) arcs[task]?.push({ from: before.task, until: before.until });
      }
    }
    return arcs;
  }

  /** What a task takes: hands while there is work in it, a machine through its waiting too. */
  #wants(task: Task, start: Seconds) {
    const { machines } = task.operation;
    const who = task.operation.who.length === 0 ? [MAKER] : task.operation.who;
    const worked = this.#calendar.addWork(start, task.work);
    const end = worked + task.waiting;
    const wants = [
      ...who.map((name) => ({ name: `who ${key(name)}`, to: worked, until: 'work' as const })),
      ...machines.map((name) => ({ name: `machine ${key(name)}`, to: end, until: 'end' as const })),
    ];
    return wants.filter(({ to }) => to > start).map((one) => ({ ...one, from: start }));
  }
}

/** Capitals, spaces and an article make no other person, and no other machine. */
const key = (name: string): string =>
  name.trim().toLowerCase().replaceAll(/\s+/g, ' ').replace(/^the /, '');

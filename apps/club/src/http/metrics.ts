/** What is counted of an answer. */
export interface Counted {
  readonly route: string;
  readonly status: number;
}

/** Upper ends of the stretches that answers are sorted into, seconds. */
const ENDS = [0.005, 0.02, 0.1, 0.5, 2, 10] as const;

/**
 * What a server process counts of its own answers, in the text form of OpenMetrics. Each process has its own: whoever
 * collects them adds them up.
 */
export class Counters {
  readonly #answers = new Map<string, number>();
  readonly #times: number[] = ENDS.map(() => 0);
  #count = 0;
  #seconds = 0;

  /** Counts one answer. @param ms how long it took */
  count({ route, status }: Counted, ms: number): void {
    const key = `route="${route.replace(/["\\\n]/g, '')}",status="${status}"`;
    this.#answers.set(key, (this.#answers.get(key) ?? 0) + 1);
    this.#count += 1;
    this.#seconds += ms / 1000;
    for (const [i, end] of ENDS.entries()) {
      if (ms / 1000 <= end) this.#times[i] = (this.#times[i] ?? 0) + 1;
    }
  }

  /** All that was counted. */
  text(): string {
    const { heapUsed, rss } = process.memoryUsage();
    return [
      '# TYPE kerfbook_answers_total counter',
      ...[...this.#answers].sort().map(([key, n]) => `kerfbook_answers_total{${key}} ${n}`),
      '# TYPE kerfbook_answer_seconds histogram',
      ...ENDS.map((end, i) => `kerfbook_answer_seconds_bucket{le="${end}"} ${this.#times[i] ?? 0}`),
      `kerfbook_answer_seconds_bucket{le="+Inf"} ${this.#count}`,
      `kerfbook_answer_seconds_sum ${this.#seconds}`,
      `kerfbook_answer_seconds_count ${this.#count}`,
      '# TYPE kerfbook_memory_bytes gauge',
      `kerfbook_memory_bytes{of="heap"} ${heapUsed}`,
      `kerfbook_memory_bytes{of="process"} ${rss}`,
      '',
    ].join('\n');
  }
}

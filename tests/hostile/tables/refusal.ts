/** Why a table cannot be built, or would be ruined. */
export interface Refusal {
  /** A word for the rule, by which tests know it. */
  readonly kind: string;
  /** A sentence for people. */
  readonly says: string;
}

/** One reason. */
export const refusal = (kind: string, says: string): Refusal => ({ kind, says });

/** A length for people, to a thousandth of an inch. */
export const inches = (value: number): string => `${Math.round(value * 1000) / 1000} in`;

/** What joins parts and is no part: bought, or made beside. */
export interface Hardware {
  /** What it is, as a buying list calls one. */
  readonly kind: 'pocket screw' | 'wood screw' | 'dowel' | 'loose tenon';
  /** The size of a screw, such as `No. 8`. */
  readonly gauge?: string;
  /** mm. */
  readonly length: number;
  /** Of a dowel, mm. */
  readonly diameter?: number;
  /** Of a loose tenon, mm. */
  readonly width?: number;
  /** Of a loose tenon, mm. */
  readonly thickness?: number;
  /** How many. */
  readonly count: number;
}

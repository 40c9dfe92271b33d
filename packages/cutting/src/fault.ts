/** Why a plan cannot be made: one sentence for its maker, and what it is about. */
export class CuttingFault extends Error {
  /** `range`: a number that cannot be; `part`: a part no board is long enough for; `stock`: too few boards. */
  readonly kind: 'range' | 'part' | 'stock';

  constructor(kind: CuttingFault['kind'], says: string) {
    super(says);
    this.name = 'CuttingFault';
    this.kind = kind;
  }
}

/** How far a file is on its way to a workbook. */
export interface Onward {
  /** Its cells are read; a workbook is made of them; that is opened, and held against the file. */
  readonly stage: 'reading' | 'making' | 'opening';
  /** How much of that is done, from 0 to 1. */
  readonly share: number;
  /** What is opened costs so much that it may take far longer, and nothing is heard of it meanwhile. */
  readonly isHandedOn: boolean;
}

/** Who hears of it, from time to time. */
export type Hears = (at: Onward) => void;

import type { Frame } from './frame.ts';
import type { Value } from './values.ts';

/** What a part of a formula comes to with the values of cells. */
export type Closure = (frame: Frame) => Value;

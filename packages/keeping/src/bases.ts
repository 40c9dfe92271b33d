import type { BookRecord, Values } from './records.ts';

/** A state of a template that a workbook was made from. */
export interface Base {
  /** SHA-256 of its text in hexadecimal digits. */
  readonly sign: string;
  /** Its saved text. */
  readonly text: string;
}

/** Where the text of such a state is kept, once for all workbooks that rest on it. */
export const baseKey = (sign: string): string => `base:${sign}`;

/** That a workbook rests on a state: gone with the workbook, and the state with the last of them. */
export const restsKey = (id: string, sign: string): string => `rests:${id}:${sign}`;

/** The same of a state that the club has, or may have, of a workbook that follows its member. */
export const restsAtClubKey = (id: string, sign: string): string => `rests:${id}:club:${sign}`;

/** What is kept beside a workbook that rests on a state. */
export const besideBase = (id: string, { sign, text }: Base): Values =>
  new Map<string, unknown>([
    [baseKey(sign), text],
    [restsKey(id, sign), true],
  ]);

/**
 * The template as it was when its working copy was made, to be kept before the copy's text is written over it:
 * the next app brings another one.
 */
export function basesBefore({ id, origin, revision, text }: BookRecord): Values {
  const sign = origin?.kind === 'template' && revision === 0 ? origin.state?.sign : undefined;
  return sign === undefined ? new Map() : besideBase(id, { sign, text });
}

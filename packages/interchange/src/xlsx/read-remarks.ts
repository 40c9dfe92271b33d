import { parseAddress } from '@kerfbook/document';
import { readXml } from '../xml/read.ts';
import { unspelled } from '../xml/write.ts';

/** A remark and its cell, counted from 0. */
export interface RemarkRead {
  readonly row: number;
  readonly column: number;
  readonly says: string;
}

const MOST = 50_000;

/** The remarks of a sheet. */
export function readRemarks(bytes: Uint8Array, part: string): readonly RemarkRead[] {
  const found: RemarkRead[] = [];
  let ref: string | undefined;
  let says = '';
  let isText = false;
  readXml(bytes, part, {
    open(name, said) {
      if (name === 'comment') {
        ref = said.ref;
        says = '';
      } else if (name === 't') isText = true;
    },
    text(piece) {
      if (isText) says += piece;
    },
    close(name) {
      if (name === 't') isText = false;
      if (name !== 'comment' || ref === undefined) return;
      const at = parseAddress(ref);
      const text = unspelled(says).trim();
      if (at !== undefined && text !== '' && found.length < MOST)
        found.push({ row: at.row, column: at.column, says: text });
      ref = undefined;
    },
  });
  return found;
}

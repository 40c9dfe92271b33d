/** What a remark of a file of ours says beside its maker's words. */
export interface RemarkedFormula {
  /** The maker's own words. */
  readonly remark: string;
  /** The formula that the workbook has, with its `=`. */
  readonly formula: string;
}

const MARK = /(?:^|\n)(?:Its last value\. )?In the workbook: (=[^\n]*)(?:\n[^\n]*)?$/;
const UNIT = /(?:^|\n)Shown in [^\n]* in the workbook\.$/;

/** The formula that was put in a remark on the way out; undefined where none was. */
export function formulaInRemark(remark: string): RemarkedFormula | undefined {
  const found = MARK.exec(remark);
  const formula = found?.[1];
  if (found === null || formula === undefined) return undefined;
  return { remark: remark.slice(0, found.index).replace(UNIT, ''), formula };
}

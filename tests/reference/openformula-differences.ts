/**
 * Cases of the standard that our engine answers otherwise, each with the reason. The reasons stand
 * in `packages/workbook/LIMITS.md` for makers; a test holds the two together.
 */
const MISSING = 'Functions of the standard that are not there';
const WILDCARDS = 'Wildcards in SEARCH and MATCH';
const TIMES = 'Times written as words';

export const DIFFERENCES: Readonly<Record<string, string>> = {
  '=MDETERM({2;4|3;5})': MISSING,
  '=CONVERT(60;"mph";"km/h")': MISSING,
  '=CONVERT(1;"day";"s")': MISSING,
  '=CONVERT(1;"uk_ton";"lbm")': MISSING,
  '=ERROR.TYPE(NA())': MISSING,
  '=ERROR.TYPE(1/0)': MISSING,
  '=FIXED(12345;3)': MISSING,
  '=FIXED(123.45;1)': MISSING,
  '=FIXED(125.45;-1)': MISSING,
  '=FIXED(12345;4;TRUE())': MISSING,
  '=NUMBERVALUE("300.5";".")': MISSING,
  '=ISEVEN(2.9)': 'ISEVEN of a number with a fraction',
  '=SEARCH("c?a";"abcabcda")': WILDCARDS,
  '=MATCH("j*b";A1:D1;0)': WILDCARDS,
  '=MATCH("j??b";A1:D1;0)': WILDCARDS,
  '=INDEX(A1:B2;2;5)': 'INDEX outside its range',
  '=VALUE("2:00")=2/24': TIMES,
  '=MROUND(-1550;100)': 'MROUND with different signs',
};

import { documentOf } from '@kerfbook/document/testing';
import { Workbook } from '@kerfbook/workbook';
import { expect, it } from 'vitest';
import { importFile } from './import-file.ts';
import { writeOds } from './ods/write.ts';
import type { Onward } from './onward.ts';
import { writeXlsx } from './xlsx/write.ts';

const book = Workbook.open(
  documentOf({
    sheets: {
      First: Array.from({ length: 1_500 }, (_, at) => [at, `=[c1.r${at + 1}]*2`]),
      Second: [[1]],
    },
  }),
);

it.each([
  ['xlsx', writeXlsx],
  ['ods', writeOds],
] as const)('tells how far an %s file is, stage after stage', (ending, write) => {
  const heard: Onward[] = [];
  const read = importFile(write(book).bytes, `x.${ending}`, { onward: (at) => heard.push(at) });
  expect(read.ok).toBe(true);
  const stages = ['reading', 'making', 'opening'] as const;
  const at = heard.map(({ stage, share }) => stages.indexOf(stage) + share);
  expect([...at].sort((a, b) => a - b)).toEqual(at);
  for (const stage of stages) {
    const shares = heard.filter((one) => one.stage === stage).map(({ share }) => share);
    expect(shares.length).toBeGreaterThan(2);
    expect(Math.min(...shares)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...shares)).toBeGreaterThan(0.8);
    expect(Math.max(...shares)).toBeLessThanOrEqual(1);
  }
});

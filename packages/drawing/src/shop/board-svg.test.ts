import { describe, expect, it } from 'vitest';
import { boardSvg } from './board-svg.ts';
import type { CutItem } from './cut-list.ts';
import { buyingPlan, type PlannedBoard } from './plan.ts';
import type { StockItem } from './stock.ts';

/** A board of 60 in and a piece of 49 in, invented. */
const inch = 25.4;
const at = { sheet: 's1', row: 1, column: 0 };
const size = { material: 'oak', thickness: inch, width: 6 * inch };
const ITEM: CutItem = { ...size, at, name: 'Shelf', count: 1, length: 49 * inch };
const STOCK: StockItem = { ...size, at, name: '1x6', length: 60 * inch, price: 14 };
const format = (mm: number): string => String(Math.round((mm / inch) * 1e4) / 1e4);

describe('a board of a plan', () => {
  it('has the ends that are trimmed off hatched, and a saw cut before its first piece', () => {
    const options = { kerf: inch / 8, endTrim: 2 * inch, format };
    const [group] = buyingPlan([ITEM], [STOCK], options).groups;
    const svg = boardSvg(group?.boards[0] as PlannedBoard, {
      format,
      kerf: inch / 8,
      longest: 60 * inch,
    });
    const boxes = (name: string) =>
      [
        ...svg.matchAll(new RegExp(`class="${name}" x="([\\d.]+)" y="0" width="([\\d.]+)"`, 'g')),
      ].map(([, x, wide]) => [Number(x), Number(x) + Number(wide)].map((end) => (end * 60) / 1000));
    const [first = [], last = []] = boxes('kb-offcut');
    expect(first[0]).toBe(0);
    expect(first[1]).toBeCloseTo(1.875, 1);
    // The piece, a cut, and the rest to the end of the board.
    expect(last[0]).toBeCloseTo(2 + 49 + 0.125, 1);
    expect(last[1]).toBeCloseTo(60, 1);
    const cuts = boxes('kb-kerf').map(([, to = 0]) => to);
    expect(cuts.sort((a, b) => a - b)).toEqual([expect.closeTo(2, 1), expect.closeTo(51.1, 1)]);
    expect(svg).toContain(', 2 trimmed off each end</title>');
  });
});

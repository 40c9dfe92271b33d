import { describe, expect, it } from 'vitest';
import { boardSvg, panelSvg } from './board-svg.ts';
import type { CutItem } from './cut-list.ts';
import { buyingPlan, type PlannedBoard, type PlannedPanel } from './plan.ts';
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

  it('is marked along a stick from its left end, each mark where its piece ends with all cuts before it', () => {
    // By hand: 2 trimmed, 20, a cut of 1/8, 20, a cut, 10: 22, 42 1/8, 52 1/4.
    const items: CutItem[] = [
      { ...ITEM, name: 'Side', count: 2, length: 20 * inch },
      { ...ITEM, name: 'Rail', count: 1, length: 10 * inch },
    ];
    const options = { kerf: inch / 8, endTrim: 2 * inch, format };
    const [group] = buyingPlan(items, [STOCK], options).groups;
    const board = group?.boards[0] as PlannedBoard;
    expect(board.pieces.map(({ item }) => item.name)).toEqual(['Side', 'Side', 'Rail']);
    const svg = boardSvg(board, { format, kerf: inch / 8, longest: 60 * inch });
    const stick = svg.split('<g class="kb-stick">')[1] ?? '';
    const written = [
      ...stick.matchAll(/<text x="([\d.]+)"[^>]*text-anchor="(\w+)">([^<]+)<\/text>/g),
    ].map(([, x, anchor, says]) => ({ x: Number(x), anchor, says }));
    expect(written.map(({ says }) => says)).toEqual(['2', '22', '42.125', '52.25']);
    // A crow's foot has its point at the mark, to a hundredth of a unit.
    const feet = [...stick.matchAll(/L([\d.]+) [\d.]+L[\d.]+ [\d.]+(?=M|")/g)].map(([, x]) =>
      Number(x),
    );
    expect(feet).toEqual([2, 22, 42.125, 52.25].map((at) => Number(((at * 1000) / 60).toFixed(2))));
    // Each is written beside its own mark and within the stick.
    for (const [i, { x, anchor }] of written.entries()) {
      const mark = feet[i] ?? Number.NaN;
      expect(anchor === 'end' ? mark - x : x - mark).toBeGreaterThan(0);
      expect(Math.abs(mark - x)).toBeLessThan(12);
    }
    expect(svg).toContain('; marks from its left end at 2, 22, 42.125, 52.25; ');
  });

  it('names short pieces as far as there is room: 1: 9 says neither what it is nor where', () => {
    const items: CutItem[] = [
      { ...ITEM, name: 'Left drawer side', length: 14 * inch },
      { ...ITEM, name: 'Drawer runner', length: 9 * inch, width: 2 * inch },
      { ...ITEM, name: 'Wedge of a tenon', length: 2 * inch },
    ];
    const stock = { ...STOCK, length: 96 * inch };
    const [group] = buyingPlan(items, [stock], { kerf: inch / 8, format }).groups;
    const svg = boardSvg(group?.boards[0] as PlannedBoard, { format, kerf: 3, longest: 96 * inch });
    const [drawn = ''] = svg.split('<g class="kb-stick">');
    const written = [...drawn.matchAll(/<text [^>]*>([^<]+)<\/text>/g)].map(([, says]) => says);
    const named = written.filter((says) => /^\d/.test(says ?? '') && says?.includes(':'));
    expect(named).toHaveLength(2);
    expect(named[0]).toMatch(/^1: Left drawe?r?…$/);
    expect(named[1]).toMatch(/^2: Dra\w*…$/);
    // Of what has no room for three letters of its name its number stands there, as in the list of cuts.
    expect(written).toContain('3');
    expect(written.some((says) => /^\d+: [\d.]/.test(says ?? ''))).toBe(false);
    // What a pointer asks for is whole.
    expect(drawn).toContain('<title>1: Left drawer side 14</title>');
  });

  it('has its waste crossed out within it, and its wood by its species', () => {
    const [group] = buyingPlan([ITEM], [STOCK], { kerf: inch / 8, format }).groups;
    const svg = boardSvg(group?.boards[0] as PlannedBoard, { format, kerf: 3, longest: 60 * inch });
    expect(svg).toContain('kb-wood-tan');
    const [, x = '', wide = ''] =
      /class="kb-offcut" x="([\d.]+)" y="0" width="([\d.]+)"/.exec(svg) ?? [];
    const [, chalk = ''] = /class="kb-chalk" d="([^"]+)"/.exec(svg) ?? [];
    const across = [...chalk.matchAll(/(-?[\d.]+) -?[\d.]+/g)].map(([, at]) => Number(at));
    expect(across.length).toBeGreaterThan(4);
    expect(Math.min(...across)).toBeGreaterThan(Number(x));
    expect(Math.max(...across)).toBeLessThan(Number(x) + Number(wide));
    const plain = { ...STOCK, material: 'MDF' };
    const board = { ...(group?.boards[0] as PlannedBoard), stock: plain };
    expect(svg).toContain('kb-board-grain');
    expect(boardSvg(board, { format, kerf: 3, longest: 60 * inch })).not.toContain(
      'kb-board-grain',
    );
  });
});

describe('a sheet of a plan', () => {
  /** A sheet of 48 by 96 in with one piece, invented. */
  const stock = { ...STOCK, name: 'Sheet', width: 48 * inch, length: 96 * inch };
  const piece = { item: ITEM, x: 0, y: 0, length: 30 * inch, width: 24 * inch };
  const panel = { stock, pieces: [piece], offcuts: [], steps: [] } as unknown as PlannedPanel;

  it.each([
    ['upright, A4', 184, 125],
    ['on its side, A4', 190, 81.5],
    ['on its side, Letter', 190, 84.4],
  ])('is written in letters of 9 points on a page %s', (_, width, height) => {
    const svg = panelSvg(panel, { format, longest: 96 * inch, room: { width, height } });
    const [, wide = 0, high = 0] = (/viewBox="\S+ \S+ (\S+) (\S+)"/.exec(svg) ?? []).map(Number);
    // It is made smaller until both sides fit; 9 points are 9/72 in.
    const shown = Math.min(width / wide, height / high);
    const letters = [...svg.matchAll(/font-size="([\d.]+)"/g)].map(([, size]) => Number(size));
    expect(letters.length).toBeGreaterThan(1);
    for (const size of letters) expect(size * shown).toBeGreaterThan((9 / 72) * inch);
  });
});

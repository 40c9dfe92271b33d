import { describe, expect, it } from 'vitest';
import { checkOf, enterAll, numberIn, tableWith } from './dining-table-book.ts';

/**
 * What the fasteners of the dining table let go, from where each stands and how it points. Geometry,
 * no source: the outer hole of a figure-8 runs on a circle about the inner one; a tongue goes out of
 * its groove until too little is left in it, and in until shoulder or tip meets wood; a screw runs in
 * its slot.
 */

interface Side {
  readonly kind: 'figure-8' | 'button' | 'clip' | 'slotted screw';
  readonly points: 'square to the apron' | 'along the apron';
}

/** The movement is square to the long aprons and along the short ones. */
function eachWay(side: Side, apron: 'long' | 'short', of: (name: string) => number): number {
  const along = side.points === 'along the apron';
  const inLine = apron === 'long' ? !along : along;
  switch (side.kind) {
    case 'figure-8': {
      const turn = (of('swivel_swing') * Math.PI) / 180;
      return inLine ? 0 : of('swivel_spacing') * Math.sin(turn);
    }
    case 'slotted screw':
      // No. 8, as it ships: 0.164 in (ASME B18.6.1, formula from memory)
      return inLine ? (of('slot_cut') - 0.164) / 2 : 0;
    default: {
      if (along) return 0;
      if (!inLine) return Math.max(0, of('fastener_end') - of('tongue_width') / 2);
      const within = of('tongue_length') - of('tongue_gap');
      return Math.min(of('tongue_gap'), within - of('tongue_hold'), of('groove_depth') - within);
    }
  }
}

const KINDS = ['figure-8', 'button', 'clip', 'slotted screw'] as const;
const WAYS = ['square to the apron', 'along the apron'] as const;
const SIDES: readonly Side[] = KINDS.flatMap((kind) => WAYS.map((points) => ({ kind, points })));

const entries = (long: Side, short: Side) => ({
  fastener_long: long.kind,
  points_long: long.points,
  fastener_short: short.kind,
  points_short: short.points,
});

describe('the fasteners of the dining table', () => {
  it('let the top move as it ships, and say by how much', () => {
    const book = tableWith({});
    expect(checkOf(book, 'fasten')?.state).toBe('pass');
    const of = (name: string) => numberIn(book, name);
    for (const apron of ['long', 'short'] as const) {
      expect(of(`fastener_reach_${apron}`)).toBeGreaterThan(of(`fastener_need_${apron}`));
    }
  });

  it.each(SIDES)('a $kind $points travels what it travels, on either apron', (side) => {
    const book = tableWith(entries(side, side));
    const of = (name: string) => numberIn(book, name);
    for (const apron of ['long', 'short'] as const) {
      expect(of(`fastener_reach_${apron}`)).toBeCloseTo(eachWay(side, apron, of), 9);
    }
  });

  it('pass where both sides have what is needed there, and only there', () => {
    const book = tableWith({});
    const passed = SIDES.flatMap((long) => SIDES.map((short) => ({ long, short }))).filter(
      ({ long, short }) => {
        enterAll(book, entries(long, short));
        const of = (name: string) => numberIn(book, name);
        // From the centre line: the inner face of a long apron, the last fastener of a short one.
        const edge = Math.max(
          Math.abs(of('movement_from_build_dry')),
          Math.abs(of('movement_from_build_humid')),
        );
        const perInch = edge / of('top_width');
        const inner =
          of('top_width') / 2 - of('overhang_side') - of('apron_setback') - of('apron_thickness');
        const last =
          of('top_width') / 2 - of('overhang_side') - of('leg_size') - of('fastener_end');
        expect(of('fastener_need_long')).toBeCloseTo(inner * perInch, 9);
        expect(of('fastener_need_short')).toBeCloseTo(last * perInch, 9);
        const enough =
          eachWay(long, 'long', of) >= inner * perInch &&
          eachWay(short, 'short', of) >= last * perInch;
        expect(checkOf(book, 'fasten')?.state, JSON.stringify({ long, short })).toBe(
          enough ? 'pass' : 'stop',
        );
        return enough;
      },
    );
    expect(passed).toHaveLength(4 * 4);
  });

  it('do not let it move where every figure-8 points with the movement', () => {
    const pointing = { kind: 'figure-8', points: 'square to the apron' } as const;
    const book = tableWith(entries(pointing, { ...pointing, points: 'along the apron' }));
    const check = checkOf(book, 'fasten');
    expect(check?.state).toBe('stop');
    expect(check?.says).toContain('a figure-8 square to the apron travels 0 in each way');
    // Nor with the figure-8s that this table was first drawn with: square to all four aprons.
    expect(checkOf(tableWith(entries(pointing, pointing)), 'fasten')?.state).toBe('stop');
    // Along the long aprons, out of a block, they swing.
    const turned = { ...pointing, points: 'along the apron' } as const;
    expect(checkOf(tableWith(entries(turned, pointing)), 'fasten')?.state).toBe('pass');
  });

  it('are told what helps where they do not, and nothing else', () => {
    const told = (entries: Readonly<Record<string, string>>) => {
      const { state, says = '' } = checkOf(tableWith(entries), 'fasten') ?? {};
      expect(state).toBe('stop');
      return says.replace(/^.* is needed\. /, '');
    };
    expect(told({ fastener_long: 'figure-8' })).toBe(
      'Point the figure-8s on the long aprons along them.',
    );
    expect(told({ fastener_short: 'slotted screw' })).toBe(
      'Point the slots on the short aprons along them.',
    );
    expect(told({ fastener_short: 'button', fastener_end: '1/2' })).toBe(
      'Start with the first one farther from the leg.',
    );
    // 25 % and 60 % air leave wood at 5.4 and 10.9 % (Wood Handbook, equation 4-5): 8.1 % lies halfway.
    const damp = told({ moisture_build: '12' });
    expect(damp).toMatch(
      /^Give each button a gap of .* Or build with drier wood: at 8\.1 % the top moves least either way\.$/,
    );
    expect(numberIn(tableWith({ moisture_build: '8.1' }), 'fastener_need')).toBeLessThan(
      numberIn(tableWith({ moisture_build: '12' }), 'fastener_need'),
    );
  });

  it('need more under a wider top and in a wetter summer', () => {
    for (const changes of [{ species: 'white oak', top_width: '60' }, { humid_humidity: '92' }]) {
      expect(checkOf(tableWith(changes), 'fasten')?.state, JSON.stringify(changes)).toBe('stop');
    }
  });
});

describe('what the fasteners of the dining table need', () => {
  it.each([
    { species: 'white oak', top_width: '60' },
    { humid_humidity: '92', apron_thickness: '2 1/2', leg_size: '4' },
    { tongue_length: '7/8' },
    { tongue_gap: '1/16' },
    { groove_depth: '1/2' },
  ])('is what the check says of buttons: %o', (entries) => {
    const book = tableWith({
      ...entries,
      fastener_short: 'slotted screw',
      points_short: 'along the apron',
    });
    enterAll(book, { slot_cut: '2' });
    const says = checkOf(book, 'fasten')?.says ?? '';
    expect(checkOf(book, 'fasten')?.state).not.toBe('pass');
    const [, gap = '', long = '', deep = ''] =
      /Give each button a gap of (.*?) in at the shoulder, and a tongue (.*?) in long in a groove (.*?) in deep\./.exec(
        says,
      ) ?? [];
    enterAll(book, { tongue_length: long, tongue_gap: gap, groove_depth: deep });
    expect(checkOf(book, 'fasten')?.state, says).toBe('pass');
    expect(checkOf(book, 'groove')?.state).toBe('pass');
    // A longer tongue alone, in the same groove, makes it worse.
    const reach = numberIn(book, 'fastener_reach_long');
    enterAll(book, { tongue_length: `${numberIn(book, 'tongue_needed') + 1 / 8}` });
    expect(numberIn(book, 'fastener_reach_long')).toBeLessThan(reach);
  });
});

/** Two in each end. Lengths by the usual list: 1 1/4 in for 3/4 in, 1 1/2 for 1 in, 2 1/2 for 1 1/2 in. */
describe('the pocket screws of the dining table', () => {
  it.each([
    ['aprons and supports', {}, { count: 24, aprons: 2.5, supports: 2.5 }],
    ['supports alone', { tenon_length: '1' }, { count: 8, aprons: 2.5, supports: 2.5 }],
    [
      'thinner supports alone',
      { tenon_length: '1', support_thickness: '3/4' },
      { count: 8, aprons: 1.25, supports: 1.25 },
    ],
    [
      'thinner supports too',
      { support_thickness: '3/4' },
      { count: 24, aprons: 2.5, supports: 1.25 },
    ],
    // Half of a longer one goes into the apron, and would come out of its face.
    [
      'thick supports between thin aprons',
      { tenon_length: '1', apron_thickness: '1', support_thickness: '2' },
      { count: 8, aprons: 1.5, supports: 1.5 },
    ],
    [
      'supports thicker than the list',
      { tenon_length: '1', apron_thickness: '2', support_thickness: '3', leg_size: '4' },
      { count: 8, aprons: 2.5, supports: 2.5 },
    ],
    ['aprons without supports', { support_gap: '60' }, { count: 16, aprons: 2.5, supports: 0 }],
    ['neither', { tenon_length: '1', support_gap: '60' }, { count: 0, aprons: 0, supports: 0 }],
  ] as const)('hold %s', (_, entries, { count, aprons, supports }) => {
    const book = tableWith(entries);
    expect(numberIn(book, 'pocket_screw_count')).toBe(count);
    expect(numberIn(book, 'pocket_screw')).toBeCloseTo(aprons, 9);
    expect(numberIn(book, 'support_screw')).toBeCloseTo(supports, 9);
    expect(numberIn(book, 'cost_pocket_screws')).toBeCloseTo(count * 0.15, 9);
  });
});

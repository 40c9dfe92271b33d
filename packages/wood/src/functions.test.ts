import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ArgumentDescription, FunctionDescription } from './describe.ts';
import { Fault, faultSentence } from './fault.ts';
import { FUNCTIONS } from './functions.ts';
import { OWN_UNITS, ownFromUs, QUANTITIES, usFromOwn } from './quantity.ts';

type Given = number | string | boolean | null | undefined | readonly (number | undefined)[];

function call(one: FunctionDescription, args: readonly Given[]): number | string {
  return (one.run as (...given: readonly Given[]) => number | string)(...args);
}

/** The arguments of an example, worked out where they are plain arithmetic or a call of ours. */
function argumentsOf(formula: string): Given[] {
  const inner = /^=[A-Z_]+\((.*)\)$/s.exec(formula)?.[1] ?? '';
  const parts = inner.match(/(?:"[^"]*"|\{[^{}]*\}|\([^()]*\)|[^,(){}"])+/g) ?? [];
  return parts.map((part) => argumentFrom(part.trim()));
}

function argumentFrom(part: string): Given {
  if (part.startsWith('"')) return part.slice(1, -1);
  if (part.startsWith('{')) return part.slice(1, -1).split(';').map(Number);
  const inner = /^([A-Z_]+)\(/.exec(part)?.[1];
  const known = inner === undefined ? undefined : FUNCTIONS.find((one) => one.name === inner);
  if (known) return call(known, argumentsOf(`=${part}`));
  return part
    .split('*')
    .map((factor) =>
      factor
        .split('/')
        .map(Number)
        .reduce((a, b) => a / b),
    )
    .reduce((a, b) => a * b);
}

const cases = FUNCTIONS.map((one) => [one.name, one] as const);

describe('every described function', () => {
  // every function but those of buying and cutting
  it('is in the list that was agreed', () => {
    const names = FUNCTIONS.map((one) => one.name);
    const agreed =
      'BOARDFEET DRESSED_THICKNESS DRESSED_WIDTH QUARTERS_ROUGH QUARTERS_PLANED QUARTERS_FOR PLIES GRADE_YIELD PANEL_BOARDS PANEL_BOARD_WIDTH GLUE_STAGES CLAMP_COUNT CLAMP_FORCE GLUE_VOLUME SURFACE_MEASURE DEW_POINT INDOOR_HUMIDITY HUMIDITY_FOR_EMC OUTDOOR_EMC SCREW_CLEARANCE_HOLE SCREW_PILOT_HOLE SCREW_HOLD SAG_UNIFORM SAG_POINT TIP_LOAD FINISH_VOLUME GRIT_STEPS SPECIFIC_GRAVITY STIFFNESS HARDNESS MOVE_TANGENTIAL MOVE_RADIAL MOVE_AT_ANGLE WOOD_WEIGHT EMC EMC_DELTA MOVEMENT MOVEMENT_SWING APRON_LENGTH RAIL_BETWEEN KNEE_ROOM SEATS_ALONG SUPPORT_COUNT GROOVE_PASSES FENCE_STOP SCREW_DIAMETER POCKET_SCREW SCREW_LONGEST FASTENER_COUNT SWIVEL_TRAVEL SLOT_LENGTH FRACTION FEET_INCHES IN FT MM CM';
    for (const name of agreed.split(' ')) expect(names).toContain(name);
    expect(new Set(names).size).toBe(names.length);
  });

  describe.each(cases)('%s', (name, one) => {
    it('is described whole', () => {
      expect(name).toMatch(/^[A-Z][A-Z_]*$/);
      expect(one.answers).toMatch(/^[A-Z].*\.$/);
      expect(one.source.length).toBeGreaterThan(5);
      expect(one.result.means).not.toBe('');
      expect(QUANTITIES).toContain(one.result.quantity);
      const names = one.args.map((argument) => argument.name);
      expect(new Set(names).size).toBe(names.length);
      for (const argument of one.args) {
        expect(argument.name).toMatch(/^[a-z][a-z0-9_]*$/);
        expect(argument.means.length).toBeGreaterThan(3);
        expect(QUANTITIES).toContain(argument.quantity);
        expect(argument.optional === true).toBe(argument.leftOut !== undefined);
      }
    });

    it('has its optional arguments last, and takes as many as it describes', () => {
      const firstOptional = one.args.findIndex((argument) => argument.optional);
      const required = firstOptional < 0 ? one.args.length : firstOptional;
      expect(one.args.slice(required).every((argument) => argument.optional)).toBe(true);
      // A default value ends what `length` counts: so it counts the required ones.
      expect(one.run.length).toBe(required);
    });

    it('answers its own example', () => {
      expect(one.example.startsWith(`=${name}(`)).toBe(true);
      const answer = call(one, argumentsOf(one.example));
      expect(typeof answer).toBe(one.result.quantity === 'text' ? 'string' : 'number');
      if (typeof answer === 'number') expect(answer).toBeGreaterThan(0);
    });

    // a book gives the same answer in either unit system, to 1 part in 10⁹
    it('answers the same in a metric workbook', () => {
      const us = argumentsOf(one.example);
      const metric = us.map((value, i) => {
        const quantity = one.args[i]?.quantity ?? 'number';
        const there = (one: number): number =>
          usFromOwn(quantity, ownFromUs(quantity, one, 'metric'), 'metric');
        if (Array.isArray(value)) return value.map(there);
        return typeof value === 'number' ? there(value) : value;
      });
      const [there, back] = [call(one, us), call(one, metric)];
      if (typeof there === 'string' || typeof back === 'string') expect(back).toBe(there);
      else {
        const own = (value: number): number => ownFromUs(one.result.quantity, value, 'metric');
        expect(Math.abs(own(back) - own(there))).toBeLessThanOrEqual(1e-9 * Math.abs(own(there)));
      }
    });

    it('says which argument is missing, one at a time', () => {
      const whole = argumentsOf(one.example);
      one.args.forEach((argument, i) => {
        if (argument.optional) return;
        for (const nothing of [undefined, null]) {
          const args = whole.map((value, place) => (place === i ? nothing : value));
          const fault = faultFrom(one, args);
          expect(fault?.detail).toMatchObject({ class: 'kind', argument: argument.name });
          expect(fault?.message).toContain('is missing');
        }
      });
    });

    it('gives a finite answer or a sentence for anything at all', () => {
      const anything = one.args.map((argument) => valuesFor(argument));
      fc.assert(
        fc.property(fc.tuple(...anything), (args) => {
          const fault = faultFrom(one, args);
          if (fault) return sayable(fault, one);
          const answer = call(one, args);
          if (typeof answer === 'string') return answer !== '';
          return Number.isFinite(answer) && (answer >= 0 || MAY_BE_NEGATIVE.has(name));
        }),
        { numRuns: 300 },
      );
    });
  });
});

const MAY_BE_NEGATIVE = new Set([
  'MOVEMENT',
  'EMC_DELTA',
  'DEW_POINT',
  'OUTDOOR_TEMPERATURE',
  'IN',
  'FT',
  'MM',
  'CM',
]);

function faultFrom(one: FunctionDescription, args: readonly Given[]): Fault | undefined {
  try {
    call(one, args);
    return undefined;
  } catch (error) {
    if (error instanceof Fault) return error;
    throw error;
  }
}

function sayable(fault: Fault, one: FunctionDescription): boolean {
  const names = one.args.map((argument) => argument.name);
  return (
    names.includes(fault.detail.argument) &&
    (['us', 'metric'] as const).every((system) => {
      const says = faultSentence(fault.detail, system);
      return (
        !/NaN|Infinity|undefined|\{n\}/.test(says.replace(/"[^"]*"/g, '')) && says.length < 400
      );
    })
  );
}

const WORDS = [
  'white oak',
  'Oak, white',
  'oak',
  '2x6',
  '8/4',
  'FAS',
  'flat',
  'rift',
  '',
  '   ',
  'x',
];

function valuesFor(argument: ArgumentDescription): fc.Arbitrary<Given> {
  const numbers = fc.oneof(
    fc.double({ min: 0, max: 300, noNaN: true }),
    fc.double(),
    fc.integer({ min: -3, max: 40 }),
    fc.constantFrom(0, -0, 1e-300, 5e-324, 1e308, -1e308, Number.MAX_SAFE_INTEGER, Number.NaN),
    fc.constantFrom(Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY),
  );
  const texts = fc.oneof(fc.constantFrom(...WORDS), fc.string());
  const others = fc.constantFrom<Given>(undefined, null, true, false);
  // The engine has only numbers and empty cells in a range.
  if (argument.takes === 'range')
    return fc.array(fc.option(numbers, { nil: undefined, freq: 20 }), { maxLength: 6 });
  return argument.takes === 'number'
    ? fc.oneof({ weight: 8, arbitrary: numbers }, texts, others)
    : fc.oneof({ weight: 6, arbitrary: texts }, numbers, others);
}

describe('units', () => {
  it('are the same there and back for every quantity', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...QUANTITIES),
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        (quantity, value) => {
          const back = usFromOwn(quantity, ownFromUs(quantity, value, 'metric'), 'metric');
          expect(back).toBeCloseTo(value, 6);
          expect(ownFromUs(quantity, value, 'us')).toBe(value);
        },
      ),
    );
  });

  // NIST SP 811, appendix B
  it.each([
    ['length', 1, 25.4],
    ['area', 1, 645.16],
    ['volume', 1, 16387.064],
    ['liquid', 1, 29.5735295625],
    ['mass', 1, 0.45359237],
    ['temperature', 212, 100],
    ['force', 1, 4.4482216152605],
    ['pressure', 1000, 6.894757293168],
    ['load_per_length', 1, 0.175126835246],
  ] as const)('%s: %d us is %d metric', (quantity, us, metric) => {
    expect(ownFromUs(quantity, us, 'metric')).toBeCloseTo(metric, 10);
  });

  it('are named for every quantity in both systems', () => {
    for (const quantity of QUANTITIES)
      expect(Object.keys(OWN_UNITS[quantity])).toEqual(['us', 'metric']);
  });
});

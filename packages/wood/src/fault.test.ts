import { describe, expect, it } from 'vitest';
import { Fault, faultSentence } from './fault.ts';

const RANGE = {
  class: 'range',
  argument: 'overhang',
  got: 40,
  quantity: 'length',
  takes: 'less than {n}',
  bounds: [25],
} as const;

describe('the sentence of a fault', () => {
  it('speaks in the units of the workbook', () => {
    expect(faultSentence(RANGE, 'us')).toBe('overhang is 40 in; it takes less than 25 in.');
    expect(faultSentence(RANGE, 'metric')).toBe('overhang is 1016 mm; it takes less than 635 mm.');
  });

  it('converts a temperature by its own scale', () => {
    const detail = {
      ...RANGE,
      quantity: 'temperature',
      argument: 't',
      got: 23,
      bounds: [32],
    } as const;
    expect(faultSentence(detail, 'metric')).toBe('t is -5 °C; it takes less than 0 °C.');
  });

  it('says that an argument is missing', () => {
    expect(faultSentence({ ...RANGE, got: undefined }, 'us')).toContain('overhang is missing');
  });

  it('never prints NaN or Infinity', () => {
    for (const got of [Number.NaN, Number.POSITIVE_INFINITY])
      expect(faultSentence({ ...RANGE, got }, 'us')).not.toMatch(/NaN|Infinity/);
  });

  it('cuts a long text short', () => {
    const says = faultSentence({ ...RANGE, class: 'kind', got: 'x'.repeat(5000) }, 'us');
    expect(says.length).toBeLessThan(120);
  });

  it('says what is wrong with a word when more is known than that it is unknown', () => {
    const fault = new Fault({
      class: 'unknown',
      argument: 'species',
      got: 'oak',
      quantity: 'text',
      takes: 'one species',
      problem: 'names more than one wood',
      hint: 'It could be "Oak, white".',
    });
    expect(fault.message).toBe(
      'species "oak" names more than one wood; it takes one species. It could be "Oak, white".',
    );
  });
});

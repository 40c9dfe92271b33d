import type { Computing, Given } from '@kerfbook/functions/computing';
import { Matrix } from '@kerfbook/functions/computing';
import {
  type FunctionDescription,
  type OwnKind,
  type UnitSystem,
  withOwnTables,
} from '@kerfbook/wood';
import { CallRefused, callDescribed, GivenRange, takesCells } from '../results/described.ts';
import { ownRows, type ownTableOf } from '../results/own-rows.ts';
import type { Rectangle } from './around.ts';
import type { Closure } from './closure.ts';
import { Failure, type Value } from './values.ts';

const isFailure = (value: unknown): value is Failure => value instanceof Failure;

/** A function of ours as standard ones are described. Which argument is missing, it says itself. */
export function oursAs(description: FunctionDescription, system: UnitSystem = 'us'): Computing {
  const { args, fills } = description;
  return {
    takes: args.map((argument) => ({
      as: takesCells(argument) ? 'range' : 'noError',
      optional: true,
    })),
    ...(fills === undefined
      ? {}
      : { size: ([first]) => ({ columns: 1, rows: first ? first.columns * first.rows : 1 }) }),
    run: (...given: (Given | undefined)[]) => answer(description, given, system),
  };
}

function answer(
  description: FunctionDescription,
  given: readonly (Given | undefined)[],
  system: UnitSystem,
): Given {
  const raw = given.map((one) =>
    one instanceof Matrix ? new GivenRange(one.cells, one.columns) : one,
  );
  const result = callDescribed(description, raw, system, isFailure);
  if (result instanceof CallRefused) return new Failure(result.type, result.message);
  if (typeof result === 'object' && !isFailure(result)) return new Matrix(1, result.length, result);
  return result;
}

export interface OwnArea {
  readonly kind: OwnKind;
  readonly area: Rectangle;
  readonly table: NonNullable<ReturnType<typeof ownTableOf>>;
}

/** A formula's value while its functions look in own tables first. */
export function withOwn(work: Closure, tables: readonly OwnArea[], system: UnitSystem): Closure {
  return (frame) => {
    const found: Parameters<typeof withOwnTables>[0] = {};
    for (const { kind, area, table } of tables) {
      const lines = linesOf(area).map((line) => line.map((slot) => frame.get(slot)));
      const rows = ownRows(table, lines, system, isFailure);
      if (rows instanceof CallRefused) return new Failure(rows.type, rows.message);
      if (rows instanceof Failure) return rows;
      (found as Record<string, unknown>)[kind] = rows;
    }
    return withOwnTables(found, () => work(frame)) as Value;
  };
}

function linesOf({ cells, width }: Rectangle): number[][] {
  const lines: number[][] = [];
  for (let at = 0; at < cells.length; at += width) lines.push([...cells.subarray(at, at + width)]);
  return lines;
}

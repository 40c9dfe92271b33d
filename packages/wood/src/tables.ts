import { CLIMATE_ROWS, CLIMATE_SOURCE } from './data/climate.ts';
import { COVERAGE_ROWS, COVERAGE_SOURCE } from './data/finish-coverage.ts';
import { FILM_ROWS, FILM_SOURCE } from './data/finish-films.ts';
import { HINGE_SOURCE, HINGES_BY_HEIGHT, HINGES_BY_WEIGHT } from './data/hinges.ts';
import { CREEP_ROWS } from './data/lasting-load.ts';
import { LATERAL_NOTE, LATERAL_ROWS, LATERAL_SOURCE } from './data/lateral-loads.ts';
import {
  BOARD_THICKNESSES,
  BOARD_WIDTHS,
  DIMENSION_THICKNESSES,
  DIMENSION_WIDTHS,
  DRESSED_SOURCE,
  GRADE_ROWS,
  GRADE_SOURCE,
  QUARTERS_ROWS,
  QUARTERS_SOURCE,
} from './data/lumber-sizes.ts';
import { OUTDOOR_ROWS, OUTDOOR_SOURCE } from './data/outdoor-moisture.ts';
import { type How, howAt } from './data/provenance.ts';
import { SAWN_ROWS, SAWN_SOURCE } from './data/sawn-sizes.ts';
import {
  GAUGE_ROOTS,
  METRIC_CORES,
  METRIC_SOURCE,
  ROOT_SOURCE,
  TESTED_SCREWS,
  TESTED_SOURCE,
} from './data/screws.ts';
import { SHEET_GOODS } from './data/sheet-goods.ts';
import { type Figure, SPECIES, type SpeciesProperty } from './species-records.ts';

/** A value of a table as it is listed. */
export interface Listed {
  /** What it is of. */
  readonly of: string;
  /** The value with its unit, as it is kept. */
  readonly value: string;
  /** How it was obtained. */
  readonly how: How;
  /** What is known against it, or where it differs from the table's own source. */
  readonly note?: string;
}

/** A table of the trade, every value with its origin. */
export interface ListedTable {
  /** What it holds. */
  readonly title: string;
  /** Where its values come from. */
  readonly source: string;
  /** Its values, each once. */
  readonly values: readonly Listed[];
}

const noted = (note: string | undefined): { note?: string } => (note === undefined ? {} : { note });

function figures(property: SpeciesProperty, unit: string): readonly Listed[] {
  return SPECIES.flatMap(({ name, figures }) => {
    const figure: Figure | undefined = figures[property];
    if (figure === undefined) return [];
    const { value, how, source, note } = figure;
    return [
      { of: name, value: `${value}${unit}`, how, ...noted(`${source}. ${note ?? ''}`.trim()) },
    ];
  });
}

const inches = (value: number): string => `${value} in`;

/** Every table of this package with all of its values. */
export const TABLES: readonly ListedTable[] = [
  {
    title: 'Movement for 1 % of moisture, flat-sawn',
    source: 'as each value says',
    values: figures('tangential', ''),
  },
  {
    title: 'Movement for 1 % of moisture, quarter-sawn',
    source: 'as each value says',
    values: figures('radial', ''),
  },
  {
    title: 'Specific gravity at 12 % moisture',
    source: 'as each value says',
    values: figures('specificGravity', ''),
  },
  {
    title: 'Stiffness (modulus of elasticity)',
    source: 'as each value says',
    values: figures('stiffness', ' psi'),
  },
  {
    title: 'Bending strength (modulus of rupture)',
    source: 'as each value says',
    values: figures('bendingStrength', ' psi'),
  },
  { title: 'Side hardness', source: 'as each value says', values: figures('hardness', ' lb') },
  {
    title: 'Dressed softwood',
    source: DRESSED_SOURCE,
    values: [
      ['board, thick', BOARD_THICKNESSES] as const,
      ['board, wide', BOARD_WIDTHS] as const,
      ['dimension lumber, thick', DIMENSION_THICKNESSES] as const,
      ['dimension lumber, wide', DIMENSION_WIDTHS] as const,
    ].flatMap(([what, rows]) =>
      rows.map(([nominal, dressed, how]) => ({
        of: `${what}, nominal ${nominal}`,
        value: inches(dressed),
        how: howAt(how, 0),
      })),
    ),
  },
  {
    title: 'Rough hardwood, both faces planed',
    source: QUARTERS_SOURCE,
    values: QUARTERS_ROWS.map(([name, , planed, how]) => ({
      of: name,
      value: inches(planed),
      how: howAt(how, 0),
    })),
  },
  {
    title: 'Sawn timber of metric yards, thickness',
    source: SAWN_SOURCE,
    values: (['hardwood', 'softwood'] as const).flatMap((kind) =>
      SAWN_ROWS[kind].map(([thickness, how]) => ({
        of: `${kind}, ${thickness} mm`,
        value: `${thickness} mm`,
        how: howAt(how, 0),
      })),
    ),
  },
  {
    title: 'Hardwood grades, least clear share of the face',
    source: GRADE_SOURCE,
    values: GRADE_ROWS.map(([grade, twelfths, , how]) => ({
      of: grade,
      value: `${twelfths}/12`,
      how: howAt(how, 0),
    })),
  },
  {
    title: 'Screws by gauge, root of the thread',
    source: ROOT_SOURCE,
    values: GAUGE_ROOTS.map(([gauge, root, how]) => ({
      of: `No. ${gauge}`,
      value: inches(root),
      how,
    })),
  },
  {
    title: 'Metric screws, core of the thread',
    source: METRIC_SOURCE,
    values: METRIC_CORES.map(([size, core, how]) => ({
      of: `${size} mm`,
      value: `${core} mm`,
      how,
    })),
  },
  {
    title: 'Screws tested for withdrawal, by length',
    source: TESTED_SOURCE,
    values: TESTED_SCREWS.map(([length, thinnest, thickest]) => ({
      of: inches(length),
      value: `No. ${thinnest} to ${thickest}`,
      how: 'memory',
    })),
  },
  {
    title:
      'Load across a wood screw where it begins to give, lb for the square of its diameter in inches',
    source: LATERAL_SOURCE,
    values: (['hardwood', 'softwood'] as const).flatMap((kind) =>
      LATERAL_ROWS[kind].map(([least, load, how]) => ({
        of: `${kind} of a gravity from ${least} on`,
        value: String(load),
        how,
        note: LATERAL_NOTE,
      })),
    ),
  },
  {
    title: 'Sheet goods, density',
    source: 'as each value says',
    values: SHEET_GOODS.map(({ names, density, densityHow, source, note }) => ({
      of: names[0],
      value: `${density} lb/ft³`,
      how: densityHow,
      note: `${source}. ${note ?? ''}`.trim(),
    })),
  },
  {
    title: 'Sheet goods, stiffness along and across the face grain',
    source: 'as each value says',
    values: SHEET_GOODS.flatMap(({ names, along, across, byThickness, how, source, note }) => {
      const origin = { how, note: `${source}. ${note ?? ''}`.trim() };
      if (byThickness !== undefined)
        return byThickness.map(([thickness, one, other]) => ({
          of: `${names[0]}, ${thickness} mm`,
          value: `${one} and ${other} N/mm²`,
          ...origin,
        }));
      const other = across === undefined ? '' : ` and ${across}`;
      return [{ of: names[0], value: `${along}${other} million psi`, ...origin }];
    }),
  },
  {
    title: 'Sag under a load that stays, times the first sag',
    source: 'as each value says',
    values: CREEP_ROWS.map(([material, times, how, source]) => ({
      of: material,
      value: String(times),
      how,
      note: source,
    })),
  },
  {
    title: 'Cup hinges of a cabinet door',
    source: HINGE_SOURCE,
    values: [
      ...HINGES_BY_HEIGHT.map(([most, hinges]) => [`up to ${most} in high`, hinges] as const),
      ...HINGES_BY_WEIGHT.map(([most, hinges]) => [`up to ${most} lb`, hinges] as const),
    ].map(([of, hinges]) => ({ of, value: String(hinges), how: 'read' as const })),
  },
  {
    title: 'Films of finish, vapor kept out in 1, 7 and 14 days',
    source: FILM_SOURCE,
    values: FILM_ROWS.map(({ name, coats, excluded, how }) => ({
      of: `${name}, ${coats} ${coats === 1 ? 'coat' : 'coats'}`,
      value: `${excluded.join(', ')} %`,
      how,
    })),
  },
  {
    title: 'Surface one coat covers',
    source: COVERAGE_SOURCE,
    values: COVERAGE_ROWS.map(({ name, low, high, how, note }) => ({
      of: name,
      value: `${low} to ${high} ft² for a gallon`,
      how,
      ...noted(note),
    })),
  },
  {
    title: 'Wood outdoors under cover, moisture by month',
    source: OUTDOOR_SOURCE,
    values: OUTDOOR_ROWS.map(([city, state, months]) => ({
      of: `${city}, ${state}`,
      value: `${months.join(', ')} %`,
      how: 'memory',
    })),
  },
  {
    title: 'Weather by month: mean temperature; mean vapor pressure',
    source: CLIMATE_SOURCE,
    values: CLIMATE_ROWS.map(([city, state, celsius, pascal]) => ({
      of: `${city}, ${state}`,
      value: `${celsius.join(', ')} °C; ${pascal.join(', ')} Pa`,
      how: 'computed',
    })),
  },
];

import type { How, WoodClass } from './provenance.ts';

/** A value with where it was found; read where it does not say otherwise. */
interface Found<T> {
  readonly is: T;
  readonly source: string;
  readonly how?: How;
  readonly note?: string;
}

/** A wood of European yards that the tables of the Wood Handbook lack. */
interface EuropeanRow {
  readonly name: string;
  readonly botanical: string;
  readonly woodClass: WoodClass;
  /** Differential swelling, radial and tangential: percent of the width for 1 % of moisture. */
  readonly swelling: Found<readonly [radial: number, tangential: number]>;
  /** kg/m³: with the water of 12 % moisture, or ovendry mass over ovendry volume. */
  readonly density?: Found<number> & { readonly at: 12 | 0 };
  /** Bending strength and stiffness, N/mm², at 12 %. */
  readonly bending?: Found<readonly [strength: number, stiffness: number]>;
  /** Side hardness (Janka), lbf. */
  readonly hardness?: Found<number>;
}

const TRADE = 'German timber trade association, table of differential shrinkage (as in DIN 68100)';
const PARQUET = 'a parquet maker’s own tests';
const DEALER = 'a parquet dealer’s technical table';
const FORESTRY = 'a forestry site after Niemz (1993)';
const YARD = 'a timber trade specification';
const CIRAD = 'CIRAD, Tropix technological sheet';
const EN350 = 'EN 350:2016, annex B';
const ASSUMED = 'Moisture of 12 % is assumed, not stated.';

const density = (is: number, note = ASSUMED) => ({ is, at: 12, source: FORESTRY, note }) as const;
const ovendry = (is: number) =>
  ({ is, at: 0, source: PARQUET, note: 'From the ovendry density.' }) as const;
const bending = (strength: number, stiffness: number) =>
  ({ is: [strength, stiffness], source: FORESTRY }) as const;
const trade = (radial: number, tangential: number, note?: string) => ({
  is: [radial, tangential] as const,
  source: TRADE,
  ...(note === undefined ? {} : { note }),
});
const parquet = (radial: number, tangential: number, note?: string) => ({
  ...trade(radial, tangential, note),
  source: PARQUET,
});

/**
 * Movement was read in German tables of differential swelling, which is what table 13-5 calls a
 * coefficient, in percent. Where other tables of theirs have another figure, the note tells it.
 */
export const EUROPEAN_ROWS: readonly EuropeanRow[] = [
  {
    name: 'Oak, European',
    botanical: 'Quercus robur, Quercus petraea',
    woodClass: 'hardwood',
    swelling: trade(0.16, 0.36, 'Others have 0.18/0.35 and 0.15/0.26.'),
    density: {
      is: 702,
      at: 12,
      source: YARD,
      note: 'Niemz (1993) has 670 kg/m³, EN 350 710 (from memory).',
    },
    bending: bending(95, 13_000),
  },
  {
    name: 'Beech, European',
    botanical: 'Fagus sylvatica',
    woodClass: 'hardwood',
    swelling: trade(0.2, 0.41, 'Others have 0.20/0.42 and 0.19/0.34.'),
    density: { is: 712, at: 12, source: YARD },
    bending: bending(120, 14_000),
    hardness: { is: 1506, source: `${YARD}, 6.7 kN` },
  },
  {
    name: 'Ash, European',
    botanical: 'Fraxinus excelsior',
    woodClass: 'hardwood',
    swelling: trade(0.21, 0.38, 'Others have 0.17/0.28 and 0.19/0.34.'),
    density: density(690),
    bending: bending(105, 13_000),
  },
  {
    name: 'Walnut, European',
    botanical: 'Juglans regia',
    woodClass: 'hardwood',
    swelling: trade(0.18, 0.29),
    density: { is: 670, at: 12, source: EN350, how: 'memory' },
  },
  {
    name: 'Maple, sycamore',
    botanical: 'Acer pseudoplatanus',
    woodClass: 'hardwood',
    swelling: parquet(0.15, 0.3, 'A dealer’s table has the same.'),
    density: ovendry(590),
  },
  {
    name: 'Cherry, European',
    botanical: 'Prunus avium',
    woodClass: 'hardwood',
    swelling: parquet(0.16, 0.26),
    density: ovendry(520),
  },
  {
    name: 'Pear, European',
    botanical: 'Pyrus communis',
    woodClass: 'hardwood',
    swelling: parquet(0.15, 0.3),
    density: ovendry(630),
  },
  {
    name: 'Elm, European',
    botanical: 'Ulmus minor, Ulmus glabra',
    woodClass: 'hardwood',
    swelling: parquet(0.19, 0.32, 'The trade’s table has 0.20/0.23; the larger is taken.'),
    density: ovendry(570),
  },
  {
    name: 'Birch, European',
    botanical: 'Betula pendula, Betula pubescens',
    woodClass: 'hardwood',
    swelling: trade(0.29, 0.41, 'Others have 0.20/0.27 and 0.20/0.30.'),
    density: density(650),
    bending: bending(120, 14_000),
  },
  {
    name: 'Alder, black',
    botanical: 'Alnus glutinosa',
    woodClass: 'hardwood',
    swelling: { is: [0.16, 0.27], source: DEALER },
  },
  {
    name: 'Poplar, European',
    botanical: 'Populus nigra, Populus x canadensis',
    woodClass: 'hardwood',
    swelling: trade(0.13, 0.31),
  },
  {
    name: 'Spruce, Norway',
    botanical: 'Picea abies',
    woodClass: 'softwood',
    swelling: trade(0.19, 0.39, 'Others have 0.15 to 0.17 and 0.31 to 0.34.'),
    density: density(470, `${ASSUMED} A trade specification has 441 kg/m³ at 12 %.`),
    bending: bending(68, 10_000),
    hardness: { is: 360, source: `${YARD}, 1.6 kN` },
  },
  {
    name: 'Pine, Scots',
    botanical: 'Pinus sylvestris',
    woodClass: 'softwood',
    swelling: trade(0.19, 0.36, 'Others have 0.13 to 0.17 and 0.26 to 0.30.'),
    density: density(520),
    bending: bending(80, 11_000),
  },
  {
    name: 'Larch, European',
    botanical: 'Larix decidua',
    woodClass: 'softwood',
    swelling: trade(0.14, 0.3, 'Others have 0.14 to 0.16 and 0.29 to 0.32, one 0.20/0.44.'),
    density: density(590),
    bending: bending(93, 12_000),
  },
  {
    name: 'Fir, European silver',
    botanical: 'Abies alba',
    woodClass: 'softwood',
    swelling: trade(0.14, 0.28),
  },
  {
    name: 'Sipo (utile)',
    botanical: 'Entandrophragma utile',
    woodClass: 'imported',
    swelling: trade(0.2, 0.25, 'Another has 0.22/0.25.'),
    density: density(590),
    bending: bending(100, 11_000),
  },
  {
    name: 'Wenge',
    botanical: 'Millettia laurentii',
    woodClass: 'imported',
    swelling: trade(0.22, 0.34, 'Others have 0.22/0.38; CIRAD’s shrinkages would give 0.28/0.44.'),
    density: { is: 870, at: 12, source: CIRAD },
    bending: { is: [144, 21_050], source: CIRAD },
    hardness: { is: 1930, source: CIRAD },
  },
  {
    name: 'Azobe',
    botanical: 'Lophira alata',
    woodClass: 'imported',
    swelling: trade(0.31, 0.4, 'Another has 0.32/0.42.'),
    density: density(1060),
    bending: bending(180, 17_000),
  },
  {
    name: 'Afzelia (doussie)',
    botanical: 'Afzelia spp.',
    woodClass: 'imported',
    swelling: trade(0.11, 0.22, 'Others have 0.17/0.23.'),
    density: ovendry(810),
  },
  {
    name: 'Merbau',
    botanical: 'Intsia bijuga',
    woodClass: 'imported',
    swelling: { is: [0.17, 0.27], source: DEALER },
  },
  {
    name: 'Makore',
    botanical: 'Tieghemella spp.',
    woodClass: 'imported',
    swelling: trade(0.22, 0.27),
  },
  {
    name: 'Niangon',
    botanical: 'Heritiera utilis',
    woodClass: 'imported',
    swelling: trade(0.18, 0.33),
  },
  {
    name: 'Muhuhu',
    botanical: 'Brachylaena huillensis',
    woodClass: 'imported',
    swelling: trade(0.25, 0.4),
  },
  {
    name: 'Sucupira',
    botanical: 'Diplotropis purpurea',
    woodClass: 'imported',
    swelling: parquet(0.26, 0.43),
  },
];

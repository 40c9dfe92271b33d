import type { How } from './provenance.ts';

/**
 * Share of the water vapour, in percent, that a film keeps out of a small pine panel over 1, 7 and
 * 14 days: panels at rest in air of 80 °F and 30 % are brought into 90 %.
 */
export interface FilmRow {
  readonly name: string;
  readonly coats: number;
  readonly excluded: readonly [day: number, week: number, fortnight: number];
  readonly how: How;
}

export const FILM_SOURCE =
  'moisture-excluding effectiveness of finishes: Wood Handbook (FPL-GTR-190) table 16-3, and Feist, Little and Wennesheimer, FPL 462 (1985)';

/** Rows marked `read` were seen in quotations of the table. */
export const FILM_ROWS: readonly FilmRow[] = [
  { name: 'linseed oil', coats: 1, excluded: [12, 0, 0], how: 'read' },
  { name: 'linseed oil', coats: 2, excluded: [22, 0, 0], how: 'read' },
  { name: 'linseed oil', coats: 3, excluded: [33, 2, 0], how: 'read' },
  { name: 'tung oil', coats: 2, excluded: [46, 2, 0], how: 'read' },
  { name: 'tung oil', coats: 3, excluded: [52, 6, 2], how: 'memory' },
  { name: 'stain', coats: 1, excluded: [7, 0, 0], how: 'read' },
  { name: 'stain', coats: 2, excluded: [13, 0, 0], how: 'read' },
  { name: 'stain', coats: 3, excluded: [21, 1, 0], how: 'read' },
  { name: 'lacquer', coats: 2, excluded: [70, 22, 8], how: 'read' },
  { name: 'shellac', coats: 2, excluded: [84, 43, 20], how: 'read' },
  { name: 'shellac', coats: 3, excluded: [91, 64, 42], how: 'memory' },
  { name: 'spar varnish', coats: 2, excluded: [80, 36, 15], how: 'read' },
  { name: 'spar varnish', coats: 3, excluded: [87, 53, 30], how: 'memory' },
  { name: 'varnish', coats: 1, excluded: [55, 10, 2], how: 'read' },
  { name: 'varnish', coats: 2, excluded: [83, 43, 23], how: 'read' },
  { name: 'varnish', coats: 3, excluded: [90, 64, 44], how: 'read' },
  { name: 'varnish', coats: 4, excluded: [91, 68, 51], how: 'read' },
  { name: 'varnish', coats: 5, excluded: [93, 72, 57], how: 'read' },
  { name: 'varnish', coats: 6, excluded: [93, 76, 62], how: 'read' },
  { name: 'two-part polyurethane', coats: 2, excluded: [90, 66, 46], how: 'read' },
  { name: 'two-part polyurethane', coats: 3, excluded: [94, 81, 66], how: 'memory' },
  { name: 'latex paint', coats: 1, excluded: [52, 12, 5], how: 'read' },
  { name: 'latex paint', coats: 2, excluded: [77, 28, 11], how: 'read' },
  { name: 'latex paint', coats: 3, excluded: [84, 39, 16], how: 'read' },
  { name: 'gloss enamel', coats: 2, excluded: [91, 64, 43], how: 'read' },
  { name: 'epoxy', coats: 2, excluded: [98, 93, 88], how: 'read' },
  { name: 'epoxy', coats: 3, excluded: [98, 95, 91], how: 'memory' },
];

/** Kinds of finish that are sold under a wider name, and the row that stands for them. */
export const FILM_ALSO_CALLED: Readonly<Record<string, string>> = {
  'drying oil': 'linseed oil',
  paint: 'latex paint',
  polyurethane: 'varnish',
};

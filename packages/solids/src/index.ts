export type { Convex, Edge, Facet, Solid, Triple } from './types.ts';

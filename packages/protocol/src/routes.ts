import { BOOKS } from './books.ts';
import { PEOPLE } from './people.ts';
import { RUNNING } from './running.ts';
import { SHELF } from './shelf.ts';

/** All that can be asked of a club, each described once. Pictures and photographs are plain files (`imagePath`). */
export const ROUTES = { ...PEOPLE, ...SHELF, ...BOOKS, ...RUNNING } as const;

/** The name of a route. */
export type RouteName = keyof typeof ROUTES;

/** Where the picture of a template or a photograph lies. */
export const imagePath = (id: string): string => `/club/images/${id}`;

import { z } from 'zod';

/** Who may ask: nobody has to be signed in, a member has, a keeper of the shelf has. */
export type Who = 'anyone' | 'member' | 'keeper';

/** What goes out of and into one route. */
export interface Shapes<P extends z.ZodType, Q extends z.ZodType, B extends z.ZodType, A> {
  /** Parts of the path. */
  readonly params?: P;
  /** What stands behind the question mark: texts. */
  readonly query?: Q;
  /** JSON; left out where the route takes none. */
  readonly body?: B;
  /** JSON. */
  readonly answer: A;
  /** A token of the command line may be used here, in the place of a session. */
  readonly token?: true;
  /** Bytes of the largest body; the server has a smaller one where none is said. */
  readonly most?: number;
}

/** One thing that can be asked of a club. */
export interface Route<
  P extends z.ZodType = z.ZodType,
  Q extends z.ZodType = z.ZodType,
  B extends z.ZodType = z.ZodType,
  A extends z.ZodType = z.ZodType,
> {
  /** As HTTP calls it. */
  readonly method: 'GET' | 'POST' | 'PUT' | 'DELETE';
  /** With its parts as `:part`. */
  readonly path: string;
  /** Who may ask. */
  readonly who: Who;
  /** Parts of the path. */
  readonly params: P;
  /** What stands behind the question mark. */
  readonly query: Q;
  /** What is sent along, as JSON. */
  readonly body: B;
  /** What it answers, as JSON. */
  readonly answer: A;
  /** A token of the command line may be used in the place of a session. */
  readonly token: boolean;
  /** Bytes of the largest body it takes. */
  readonly most: number;
}

const Nothing = z.strictObject({});
const NoBody = z.undefined();
/** Enough for words; routes that take workbooks or photographs say more. */
const USUAL_MOST = 64 * 1024;

/** Describes a route once, for the server, its tests, the page and the command line. */
export function route<
  A extends z.ZodType,
  P extends z.ZodType = typeof Nothing,
  Q extends z.ZodType = typeof Nothing,
  B extends z.ZodType = typeof NoBody,
>(method: Route['method'], path: string, who: Who, shapes: Shapes<P, Q, B, A>): Route<P, Q, B, A> {
  return {
    method,
    path,
    who,
    params: shapes.params ?? (Nothing as unknown as P),
    query: shapes.query ?? (Nothing as unknown as Q),
    body: shapes.body ?? (NoBody as unknown as B),
    answer: shapes.answer,
    token: shapes.token ?? false,
    most: shapes.most ?? USUAL_MOST,
  };
}

import { type ComponentType, type LazyExoticComponent, lazy } from 'react';

/**
 * A part of the page that is loaded when it is first drawn. Where it does not arrive, a sentence stands
 * in its place and the rest of the page goes on.
 */
export function later<P extends object>(
  load: () => Promise<{ readonly default: ComponentType<P> }>,
): LazyExoticComponent<ComponentType<P>> {
  return lazy<ComponentType<P>>(() =>
    load().catch((error: unknown) => {
      console.error(error);
      return { default: NotArrived };
    }),
  );
}

function NotArrived() {
  return (
    <p className="refused" role="alert">
      This part of Kerfbook did not load. Check your connection, then reload the page.
    </p>
  );
}

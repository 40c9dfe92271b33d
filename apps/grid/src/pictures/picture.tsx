import { useLayoutEffect, useRef } from 'react';

/** Shows an SVG text as a drawing of the page. Parsed as XML: nothing in it can run. */
export function Picture({ svg }: { readonly svg: string }) {
  const holder = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    const drawn = new DOMParser().parseFromString(svg, 'image/svg+xml').documentElement;
    holder.current?.replaceChildren(document.importNode(drawn, true));
  }, [svg]);
  return <div ref={holder} className="picture" />;
}

import { useLayoutEffect, useRef } from 'react';

interface PictureProps {
  readonly svg: string;
  /** It is as large as it says itself, at its scale; else it fills its place. */
  readonly atScale?: boolean;
}

/** Shows an SVG text as a drawing of the page. Parsed as XML: nothing in it can run. */
export function Picture({ svg, atScale = false }: PictureProps) {
  const holder = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    const drawn = new DOMParser().parseFromString(svg, 'image/svg+xml').documentElement;
    holder.current?.replaceChildren(document.importNode(drawn, true));
  }, [svg]);
  return <div ref={holder} className={atScale ? 'picture-at-scale' : 'picture'} />;
}

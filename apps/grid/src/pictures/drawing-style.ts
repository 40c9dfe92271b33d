import { DRAWING_STYLE, SHADED_STYLE } from '@kerfbook/drawing';
import { useLayoutEffect } from 'react';

let styled = false;

/** Adopted once for the page; a sheet made by script needs no exception from the page's policy. */
export function useDrawingStyle(): void {
  useLayoutEffect(() => {
    if (styled) return;
    styled = true;
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(DRAWING_STYLE + SHADED_STYLE);
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
  }, []);
}

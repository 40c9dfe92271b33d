import { DRAWING_STYLE, SHADED_STYLE } from '@kerfbook/drawing';

/** What is only in figures. */
const OWN = `.kb-figure { display: block; inline-size: 100%; block-size: auto; max-inline-size: 170mm; font-family: inherit; }
.kb-figure > g > .kb-rings { stroke-width: 0.8px; stroke-opacity: 0.7; }
.kb-figure .kb-quiet { stroke-width: 0.9px; stroke-opacity: 0.5; }
.kb-figure .kb-new { stroke-width: 1.2px; stroke-linejoin: round; stroke-linecap: round; }
.kb-figure .kb-label, .kb-figure .kb-said { fill: currentColor; stroke: none; }
.kb-figure .kb-dot, .kb-figure .kb-iron { fill: currentColor; stroke: none; }
.kb-board-face { fill: color-mix(in srgb, var(--kb-wood), light-dark(#fff, #000) 14%); }
.kb-board-side { fill: color-mix(in srgb, var(--kb-wood), #fff 34%); }
.kb-board-end { fill: color-mix(in srgb, var(--kb-wood), #000 16%); }
.kb-board :is(.kb-board-grain, .kb-rings) { fill: none; stroke: currentColor; stroke-opacity: 0.3; stroke-width: 0.8; }
.kb-cut-piece { fill: none; stroke: currentColor; stroke-width: 1; }
.kb-kerf { fill: currentColor; }
.kb-board :is(.kb-board-edge, .kb-board-side, .kb-board-end) { stroke: currentColor; stroke-linejoin: round; stroke-width: 1; }
.kb-board .kb-board-edge { fill: none; stroke-width: 2; }
.kb-offcut { fill: light-dark(#fff, #000); fill-opacity: 0.66; }
.kb-board :is(.kb-chalk, .kb-pencil) { fill: none; stroke: currentColor; stroke-linecap: round; stroke-width: 1.5; }
.kb-stick-lath { fill: light-dark(#fff, #000); stroke: currentColor; stroke-width: 0.8; }
.kb-board text { fill: currentColor; font-variant-numeric: lining-nums tabular-nums; }
.kb-board .kb-cut text { stroke: color-mix(in srgb, var(--kb-wood), light-dark(#fff, #000) 14%); stroke-linejoin: round; stroke-width: 5; paint-order: stroke; }
@media print { .kb-figure { color: #000; } .kb-figure .kb-quiet { stroke-width: 0.2mm; } .kb-figure .kb-new { stroke-width: 0.4mm; } }
`;

/**
 * The look of figures, with that of drawings and woods: for a page whose `color-scheme` is light, dark or both, and
 * for print.
 */
export const FIGURE_STYLES: string = [DRAWING_STYLE, SHADED_STYLE, OWN].join('\n');

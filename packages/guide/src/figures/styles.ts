import { DRAWING_STYLE, SHADED_STYLE } from '@kerfbook/drawing';

/** What is only in figures. */
const OWN = `.kb-figure { display: block; inline-size: 100%; block-size: auto; max-inline-size: 170mm; font-family: inherit; }
.kb-figure .kb-quiet { stroke-width: 0.9px; stroke-opacity: 0.5; }
.kb-figure .kb-new { stroke-width: 1.2px; stroke-linejoin: round; stroke-linecap: round; }
.kb-figure .kb-label, .kb-figure .kb-said { fill: currentColor; stroke: none; }
.kb-figure .kb-dot { fill: currentColor; stroke: none; }
@media print { .kb-figure { color: #000; } .kb-figure .kb-quiet { stroke-width: 0.2mm; } .kb-figure .kb-new { stroke-width: 0.4mm; } }
`;

/**
 * The look of figures, with that of drawings and woods: for a page whose \`color-scheme\` is light, dark or both, and
 * for print.
 */
export const FIGURE_STYLES: string = [DRAWING_STYLE, SHADED_STYLE, OWN].join('\n');

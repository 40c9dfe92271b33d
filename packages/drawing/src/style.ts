import { painted, SHADE_RULES, WOOD_RULES } from './shade.ts';

/**
 * The lines of a drawing: put it in a page's styles, or let a saved SVG carry it. Everything is drawn
 * in the surrounding text colour, so it follows light, dark and print. Thick to thin is 2 : 1
 * (ISO 128); visible edges thick and continuous, hidden ones thin short dashes, dimensions thin, the
 * way of a piece a thin long-dashed dotted line, another place of an edge a thin long-dashed
 * double-dotted one.
 */
export const DRAWING_STYLE = `.kb-drawing { color: inherit; font-variant-numeric: tabular-nums lining-nums; }
.kb-drawing path { vector-effect: non-scaling-stroke; }
.kb-outline { fill: none; stroke: currentColor; stroke-width: 1.6px; stroke-linecap: square; }
.kb-parallel .kb-outline { stroke-width: 1.2px; stroke-linejoin: round; stroke-linecap: round; }
.kb-hidden { fill: none; stroke: currentColor; stroke-width: 0.8px; stroke-dasharray: 4px 2.5px; stroke-opacity: 0.8; }
.kb-dimension, .kb-leader, .kb-scale, .kb-break, .kb-face-mark { fill: none; stroke: currentColor; stroke-width: 0.8px; }
.kb-arrow { fill: currentColor; stroke: none; }
.kb-grain, .kb-floor { fill: none; stroke: currentColor; stroke-width: 0.8px; stroke-opacity: 0.55; }
.kb-text, .kb-note, .kb-caption { fill: currentColor; stroke: none; }
.kb-piece { fill: currentColor; fill-opacity: 0; stroke: none; }
.kb-piece:hover, .kb-piece.is-current { fill-opacity: 0.1; }
.kb-face { fill-opacity: 1; stroke-width: 0.5px; stroke-linejoin: round; }
.kb-fibre, .kb-rings { fill: none; stroke: currentColor; stroke-width: 0.6px; stroke-opacity: 0.34; }
.kb-joint, .kb-hatch { fill: none; stroke: currentColor; stroke-width: 0.8px; stroke-opacity: 0.6; }
.kb-trace, .kb-center { fill: none; stroke: currentColor; stroke-width: 0.8px; stroke-dasharray: 12px 2px 1.5px 2px; stroke-opacity: 0.8; }
.kb-movement, .kb-adjacent { fill: none; stroke: currentColor; stroke-width: 0.8px; stroke-dasharray: 12px 2px 1.5px 2px 1.5px 2px; }
.kb-lines { pointer-events: none; }
@media print { .kb-outline { stroke-width: 0.5mm; } .kb-hidden, .kb-dimension, .kb-leader, .kb-scale, .kb-grain, .kb-floor, .kb-trace, .kb-movement, .kb-adjacent, .kb-break, .kb-center, .kb-face-mark { stroke-width: 0.25mm; stroke-opacity: 1; } .kb-fibre, .kb-rings { stroke-width: 0.13mm; stroke-opacity: 0.6; } .kb-joint, .kb-hatch { stroke-width: 0.18mm; stroke-opacity: 1; } }
`;

/**
 * The woods of a shaded drawing and what marks a piece, for a page of ours: colours by its scheme,
 * tints where it is printed. A file of its own carries its colours instead.
 */
export const SHADED_STYLE = `${WOOD_RULES}
${SHADE_RULES}
.kb-piece.is-current { --kb-wood: light-dark(#86a9c9, #3f6d98); }
rect.kb-piece.is-current { fill: light-dark(#24588a, #8dbbe8); fill-opacity: 0.16; stroke: light-dark(#24588a, #8dbbe8); stroke-width: 3px; vector-effect: non-scaling-stroke; }
.kb-piece.is-current > .kb-area { fill: light-dark(#24588a, #8dbbe8); fill-opacity: 0.16; }
.kb-piece.is-current > .kb-rim { stroke: light-dark(#24588a, #8dbbe8); stroke-width: 3px; stroke-linecap: round; }
.kb-piece:hover .kb-face { ${painted('color-mix(in srgb, var(--kb-wood), light-dark(#86a9c9, #3f6d98) 45%)')} }
`;

/**
 * The look of a drawing: put it in a page's styles, or let a saved SVG carry it. Everything is drawn
 * in the surrounding text colour, so it follows light, dark and print. Thick to thin is 2 : 1
 * (ISO 128); visible edges thick and continuous, hidden ones thin short dashes, dimensions thin.
 */
export const DRAWING_STYLE = `.kb-drawing { color: inherit; font-variant-numeric: tabular-nums lining-nums; }
.kb-drawing path { vector-effect: non-scaling-stroke; }
.kb-outline { fill: none; stroke: currentColor; stroke-width: 1.6px; stroke-linecap: square; }
.kb-hidden { fill: none; stroke: currentColor; stroke-width: 0.8px; stroke-dasharray: 4px 2.5px; stroke-opacity: 0.8; }
.kb-dimension, .kb-scale { fill: none; stroke: currentColor; stroke-width: 0.8px; }
.kb-arrow { fill: currentColor; stroke: none; }
.kb-grain, .kb-floor { fill: none; stroke: currentColor; stroke-width: 0.8px; stroke-opacity: 0.55; }
.kb-text, .kb-caption { fill: currentColor; stroke: none; }
.kb-piece { fill: currentColor; fill-opacity: 0; stroke: none; }
.kb-piece:hover, .kb-piece.is-current { fill-opacity: 0.1; }
.kb-lines { pointer-events: none; }
@media print { .kb-outline { stroke-width: 0.5mm; } .kb-hidden, .kb-dimension, .kb-scale, .kb-grain, .kb-floor { stroke-width: 0.25mm; stroke-opacity: 1; } }
`;

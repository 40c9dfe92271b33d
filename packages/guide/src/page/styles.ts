import { FIGURE_STYLES } from '../figures/styles.ts';

/** Colours of a guide, and boards as they lie on the bench; on paper all is black on white. */
const GROUND = `:root { color-scheme: light dark; }
.guide { --guide-ink: light-dark(#1d1b18, #ece8e1); --guide-quiet: light-dark(#57524b, #b3aca1); --guide-line: light-dark(#b9b2a7, #5b564e); --guide-paper: light-dark(#fdfcfa, #1b1a18); --guide-tint: light-dark(#f2efe9, #262421); --guide-care: light-dark(#8a5a00, #f0c46a); --guide-stop: light-dark(#9d1c1c, #ff9c93); --guide-accent: light-dark(#24588a, #8dbbe8); color: var(--guide-ink); background: var(--guide-paper); font-family: 'Source Sans 3', 'Source Sans Pro', system-ui, -apple-system, 'Segoe UI', Roboto, 'Noto Sans', sans-serif; font-size: 1.0625rem; line-height: 1.5; overflow-wrap: anywhere; }
.guide *, .guide *::before, .guide *::after { box-sizing: border-box; }
`;

const BOARDS = `.kb-board { display: block; inline-size: 100%; block-size: auto; color: inherit; }
.kb-board-face { fill: color-mix(in srgb, var(--kb-wood), light-dark(#fff, #000) 14%); }
.kb-board-side { fill: color-mix(in srgb, var(--kb-wood), #fff 34%); }
.kb-board-end { fill: color-mix(in srgb, var(--kb-wood), #000 16%); }
.kb-board .kb-board-grain, .kb-board .kb-rings { fill: none; stroke: currentColor; stroke-opacity: 0.3; stroke-width: 0.8; }
.kb-cut-piece { fill: none; stroke: currentColor; stroke-width: 1; }
.kb-kerf { fill: currentColor; }
.kb-board .kb-board-edge, .kb-board .kb-board-side, .kb-board .kb-board-end { stroke: currentColor; stroke-linejoin: round; stroke-width: 1; }
.kb-board .kb-board-edge { fill: none; stroke-width: 2; }
.kb-offcut { fill: light-dark(#fff, #000); fill-opacity: 0.4; stroke: none; }
.kb-board .kb-chalk, .kb-board .kb-pencil { fill: none; stroke: currentColor; stroke-linecap: round; stroke-width: 1.5; }
.kb-stick-lath { fill: var(--guide-paper); stroke: currentColor; stroke-width: 0.8; }
.kb-board text { fill: currentColor; font-family: inherit; font-variant-numeric: lining-nums tabular-nums; }
.kb-board .kb-cut text { stroke: color-mix(in srgb, var(--kb-wood), light-dark(#fff, #000) 14%); stroke-linejoin: round; stroke-width: 5; paint-order: stroke; }
`;

const SCREEN = `.guide { margin: 0; padding: 1rem; }
.guide-pages { max-inline-size: 48rem; margin-inline: auto; }
.guide h1 { font-size: 1.75rem; line-height: 1.15; margin: 0 0 0.75rem; }
.guide h2 { font-size: 1.3125rem; line-height: 1.25; margin: 0 0 0.5rem; }
.guide h3 { font-size: 1.0625rem; line-height: 1.3; margin: 1rem 0 0.375rem; }
.guide p { margin: 0 0 0.625rem; }
.guide-section { margin-block: 0 2.25rem; }
.guide-kind { color: var(--guide-quiet); }
.guide .guide-kind { margin-block-end: 0.125rem; }
.guide-drawing svg, .guide-figure svg { display: block; inline-size: 100%; block-size: auto; }
.guide-drawing { margin-block: 0.75rem; }
.guide-about { color: var(--guide-quiet); }
.guide-facts { margin: 0 0 0.75rem; display: grid; gap: 0.125rem 1rem; }
.guide-facts > div { display: grid; grid-template-columns: minmax(7rem, 12rem) 1fr; gap: 0.75rem; padding-block: 0.1875rem; border-block-end: 1px solid var(--guide-line); }
.guide-facts dt { color: var(--guide-quiet); }
.guide-facts dd { margin: 0; }
.guide-list { margin: 0 0 0.75rem; padding-inline-start: 1.25rem; }
.guide-facts .guide-list { margin: 0; padding: 0; list-style: none; }
.guide-cautions-list { margin: 0; padding-inline-start: 1.25rem; }
.guide-cautions-list li { margin-block-end: 0.375rem; }
.guide-to-get { list-style: none; padding: 0; }
.guide-to-get li { padding-block: 0.1875rem; }
.guide-tools { columns: 9rem; column-gap: 1.5rem; }
.guide-small-head { font-weight: 600; }
.guide-sizes .guide-facts, .guide-step-needs .guide-facts { margin-block-end: 0.5rem; }
.guide-sizes .guide-facts { grid-template-columns: repeat(auto-fill, minmax(min(100%, 17rem), 1fr)); }
.guide-sizes .guide-facts > div { grid-template-columns: 1fr auto; }
.guide-step-needs .guide-facts > div { border: 0; padding-block: 0.0625rem; }
.guide .guide-small-head { margin-block: 0.5rem 0.125rem; }
.guide-warning { border: 2px solid var(--guide-care); border-inline-start-width: 8px; padding: 0.5rem 0.75rem; margin-block: 0.75rem; }
.guide-warning-stop { border-color: var(--guide-stop); border-style: double; border-width: 4px; border-inline-start-width: 10px; }
.guide .guide-warning p { margin: 0 0 0.25rem; }
.guide-warning-word { font-weight: 700; color: var(--guide-care); }
.guide-warning-stop .guide-warning-word { color: var(--guide-stop); }
.guide-warning ul { margin: 0; padding-inline-start: 1.25rem; }
.guide-step { border-block-start: 2px solid var(--guide-ink); padding-block-start: 0.75rem; }
.guide-step-number { display: block; font-size: 1rem; font-weight: 600; color: var(--guide-quiet); }
.guide-figure, .guide-photo { margin: 0.75rem 0; }
.guide-figure figcaption { color: var(--guide-quiet); margin-block-start: 0.25rem; }
.guide-photo img { display: block; max-inline-size: 100%; block-size: auto; }
.guide-wide { overflow-x: auto; }
.guide-table { border-collapse: collapse; inline-size: 100%; margin-block: 0.5rem 0.75rem; }
.guide-table caption { text-align: start; font-weight: 600; padding-block-end: 0.25rem; }
.guide-table th, .guide-table td { text-align: start; vertical-align: baseline; padding: 0.25rem 0.625rem 0.25rem 0; border-block-end: 1px solid var(--guide-line); overflow-wrap: normal; }
.guide-table thead th { border-block-end-color: currentColor; }
.guide-table tbody th { font-weight: 600; }
.guide-table .guide-number { text-align: end; white-space: nowrap; }
.guide-sheet-cuts th:last-child, .guide-sheet-cuts td:last-child { inline-size: 40%; }
.guide-board { margin-block: 0.75rem 1rem; }
.guide-board-name span { color: var(--guide-quiet); }
.guide .guide-board-name { margin-block-end: 0.25rem; }
.kb-number, .kb-size { white-space: nowrap; font-variant-numeric: lining-nums tabular-nums; }
.kb-aloud { position: absolute; inline-size: 1px; block-size: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
.kb-lost { border-block-end: 2px dotted currentColor; }
.guide-tick { inline-size: 1.375rem; block-size: 1.375rem; margin: 0 0.5rem 0 0; vertical-align: -0.25rem; accent-color: var(--guide-accent); }
.guide-box { display: none; }
@media (width >= 40rem) { .guide-needs-parts { display: grid; grid-template-columns: 1fr 1fr; gap: 0 2rem; } .guide-need-wide { grid-column: 1 / -1; } .guide-need-wide .guide-to-get { columns: 2; column-gap: 2rem; } }
`;

const PAPER = `@media print {
html { font-size: 10pt; }
:root { color-scheme: light; }
.guide { --guide-ink: #000; --guide-quiet: #000; --guide-line: #777; --guide-paper: #fff; --guide-tint: #fff; --guide-care: #000; --guide-stop: #000; color: #000; background: #fff; font-size: 10pt; line-height: 1.36; padding: 0; }
.guide-pages { max-inline-size: none; }
.guide h1 { font-size: 22pt; }
.guide h2 { font-size: 14pt; break-after: avoid; }
.guide h3 { font-size: 11.5pt; break-after: avoid; }
.guide-cut-list > h2 + p, .guide-cutting-plan > p, .guide-cutting-plan > .guide-warning-caution { break-after: avoid; break-inside: avoid; }
.guide-section { margin-block: 0 7mm; }
.guide-step:not(.guide-step-tall), .guide-step-top, .guide-figure, .guide-photo, .guide-warning, .guide-board, .guide-together, .guide-need, .guide-step-needs, .guide-finish, .guide-care, .guide-credits, .guide-facts > div, .guide-table tr, .guide-list li { break-inside: avoid; }
.guide-table thead { display: table-header-group; }
.guide-together:has(> .guide-wide) { break-inside: auto; }
.guide-board-name, .guide-table caption { break-after: avoid; }
.guide p { orphans: 3; widows: 3; }
.guide-wide { overflow: visible; }
.guide-table { font-size: 9.5pt; }
.guide-cuts .guide-note { inline-size: 34%; }
.guide-cautions-list li:first-child { break-after: avoid; }
.guide-cautions-list li:last-child { break-before: avoid; }
.guide-cautions-list li { break-inside: avoid; }
.guide-cuts tbody tr:nth-child(-n+3) { break-after: avoid; }
.guide-cuts tbody tr:nth-last-child(-n+3) { break-before: avoid; }
:is(.guide-finish, .guide-credits) .guide-facts { grid-template-columns: 1fr 1fr; gap: 0 8mm; }
.guide-photo img { max-block-size: 78mm; }
.guide-figure, .guide-photo { margin-block: 1.5mm 2.5mm; }
.guide-step, .guide-step-tall .guide-step-top { display: flow-root; }
.guide-figure:not(.guide-figure-wide) { float: inline-start; inline-size: 108mm; margin-inline-end: 6mm; }
.guide-photo, .guide-figure-wide, .guide-below { clear: both; }
.guide-beside { display: flow-root; }
.guide-step-top > .guide-sizes { display: flow-root; }
.guide-step-number { display: inline; }
.guide-photo img { inline-size: auto; }
.guide-drawing svg { max-block-size: 120mm; }
.guide-sizes .guide-facts { grid-template-columns: repeat(auto-fill, minmax(60mm, 1fr)); gap: 0 6mm; }
.guide-sizes .guide-facts > div, .guide-facts > div { padding-block: 0.5mm; }
.guide-step-needs { display: flow-root; break-before: avoid; }
.guide-step-needs .guide-small-head { display: none; }
.guide-step-needs .guide-facts { display: block; margin-block-end: 1mm; }
.guide-step-needs .guide-facts > div { display: inline; }
.guide-step-needs .guide-facts > div:not(:last-child)::after { content: " · "; }
.guide-step-needs dt { font-weight: 600; white-space: nowrap; }
.guide-step-needs dt, .guide-step-needs dd { display: inline; }
.guide-step-needs dt::after { content: ": "; }
.guide-step-needs .guide-facts .guide-list { display: inline; }
.guide-step-needs .guide-facts .guide-list li { display: inline; }
.guide-step-needs .guide-facts .guide-list li:not(:last-child)::after { content: "; "; }
.guide-warning { padding: 1.5mm 3mm; margin-block: 2.5mm; }
.guide-step .guide-warning { display: flow-root; padding: 1mm 2mm; margin-block: 1.5mm 2mm; border-width: 0.4mm; border-inline-start-width: 1.6mm; font-size: 9.5pt; line-height: 1.3; }
.guide-tools { columns: 4; }
.guide-section.guide-step { margin-block-end: 4mm; padding-block-start: 2mm; }
.guide-tick { display: none; }
.guide-box { display: inline-block; inline-size: 3.6mm; block-size: 3.6mm; border: 0.3mm solid #000; margin-inline-end: 1.2mm; vertical-align: -0.6mm; }
.guide-step-number, .guide-small-head { font-size: 9.5pt; }
}
`;

/** The styles of a guide's sections within an element of the class `guide`: phone first, light and dark, and paper. */
export const GUIDE_STYLES: string = `${GROUND}${FIGURE_STYLES}${BOARDS}${SCREEN}${PAPER}`;

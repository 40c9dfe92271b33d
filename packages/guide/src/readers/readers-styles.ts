/** Tones of a page, for its accents and its ground, each readable on either: contrast 4.5 at least (WCAG 2.2, 1.4.3). */
const TONE_COLOURS = {
  graphite: ['#3b4a57', '#a9bccb', '#fbfbfc', '#191b1d'],
  walnut: ['#6b4426', '#d9b08c', '#fdfaf6', '#1d1915'],
  cherry: ['#8c3524', '#eba08f', '#fdf9f7', '#1e1816'],
  moss: ['#42602f', '#a9c98f', '#fafbf7', '#191b16'],
  milk: ['#2f5f73', '#93c3d6', '#f8fbfc', '#161b1d'],
} as const;

const TONES = Object.entries(TONE_COLOURS)
  .map(
    ([tone, [light, dark, paper, night]]) =>
      `.guide.guide-tone-${tone} { --guide-accent: light-dark(${light}, ${dark}); --guide-paper: light-dark(${paper}, ${night}); }`,
  )
  .join('\n');

/** The styles of the page for readers beside those of the guide: phone first; beside the plan where there is room. */
export const READERS_STYLES: string = `${TONES}
.guide-no-script { max-inline-size: 48rem; margin: 0 auto 1rem; padding: 0.75rem; border: 2px solid var(--guide-line); }
.guide-readers h1 { color: var(--guide-accent); }
.guide-panel { border: 1px solid var(--guide-line); border-block-start: 4px solid var(--guide-accent); background: var(--guide-tint); padding: 0.75rem 1rem 1rem; margin-block: 0 2.25rem; }
.guide-field { margin-block-end: 0.75rem; }
.guide-field-line { display: flex; flex-wrap: wrap; gap: 0.25rem 0.75rem; align-items: center; justify-content: space-between; }
.guide-field-line label { flex: 1 1 9rem; }
.guide-panel input[type='text'], .guide-panel select { font: inherit; color: inherit; background: var(--guide-paper); border: 1px solid var(--guide-quiet); border-radius: 4px; min-block-size: 44px; padding: 0.25rem 0.5rem; inline-size: 8.5rem; font-variant-numeric: lining-nums tabular-nums; }
.guide-panel select { inline-size: 12.5rem; max-inline-size: 100%; }
.guide-panel [aria-invalid='true'] { border: 2px solid var(--guide-stop); }
.guide-slider { display: block; inline-size: 100%; block-size: 44px; margin: 0; accent-color: var(--guide-accent); }
.guide-slider[hidden] { display: none; }
.guide-hint { color: var(--guide-quiet); font-size: 0.9375rem; }
.guide .guide-problem { color: var(--guide-stop); margin: 0.25rem 0 0; }
.guide-refused { border: 2px solid var(--guide-care); padding: 0.5rem 0.75rem; margin-block-end: 0.75rem; }
.guide-refused ul { margin: 0; padding-inline-start: 1.25rem; }
.guide-warns { font-weight: 600; }
.guide-warns-some, .guide-warns-some a { color: var(--guide-care); }
.guide-warns a { display: inline-block; padding-block: 0.625rem; }
.guide-doings { display: flex; flex-wrap: wrap; gap: 0.5rem; }
.guide-doings button { font: inherit; color: inherit; background: var(--guide-paper); border: 1px solid var(--guide-quiet); border-radius: 4px; min-block-size: 44px; padding: 0.375rem 0.75rem; cursor: pointer; }
.guide-doings .guide-hint { flex: 1 1 100%; margin: 0; }
.guide .guide-copied { margin-block: 0.5rem; }
.guide-copied input[type='text'] { inline-size: 100%; }
.guide-readers :is(button, input, select, a):focus-visible { outline: 3px solid var(--guide-accent); outline-offset: 2px; }
.guide-readers a { color: var(--guide-accent); }
.guide-readers .guide-tick { appearance: none; inline-size: 44px; block-size: 44px; margin: 0; display: inline-grid; place-items: center; vertical-align: middle; cursor: pointer; }
.guide-readers .guide-tick::before { content: ''; inline-size: 1.375rem; block-size: 1.375rem; border: 2px solid var(--guide-quiet); border-radius: 3px; }
.guide-readers .guide-tick:checked::before { content: '✓'; border-color: var(--guide-accent); background: var(--guide-accent); color: var(--guide-paper); font-weight: 700; line-height: 1.25rem; text-align: center; }
.guide-section[aria-busy='true'] { opacity: 0.55; }
@media screen {
.guide-readers .guide-to-get li { padding-inline-start: 44px; }
.guide-readers .guide-to-get .guide-tick { margin-inline-start: -44px; }
.guide-pages > .guide-section:not(.guide-cover) { content-visibility: auto; contain-intrinsic-block-size: auto 30rem; }
}
.guide-program { max-inline-size: 48rem; margin: 2rem auto 0; color: var(--guide-quiet); font-size: 0.9375rem; }
@media (width < 40rem) {
.guide-readers .guide-board-name .guide-boxes { display: block; }
.guide-readers .guide-cuts, .guide-readers .guide-cuts tbody { display: block; }
.guide-readers .guide-cuts thead { position: absolute; inline-size: 1px; block-size: 1px; overflow: hidden; clip-path: inset(50%); }
.guide-readers .guide-cuts tbody tr { display: flex; flex-wrap: wrap; gap: 0.125rem 0.375rem; align-items: baseline; padding-block: 0.5rem; border-block-end: 1px solid var(--guide-line); }
.guide-readers .guide-cuts :is(td, tbody th) { display: block; border: 0; padding: 0; }
.guide-readers .guide-cuts tbody th { flex: 0 0 auto; }
.guide-readers .guide-cuts .guide-done { order: 9; flex: 1 1 100%; }
.guide-readers .guide-cuts td:nth-child(3) { flex: 1 1 auto; text-align: start; }
.guide-readers .guide-cuts td:nth-child(3)::before { content: '('; }
.guide-readers .guide-cuts td:nth-child(3)::after { content: ')'; }
.guide-readers .guide-cuts td:nth-child(5)::before, .guide-readers .guide-cuts td:nth-child(6)::before { content: '× '; }
.guide-readers .guide-cuts td:nth-child(7) { flex: 1 1 100%; }
.guide-readers .guide-cuts .guide-note { flex: 1 1 100%; color: var(--guide-quiet); }
.guide-readers .guide-wide { overflow: visible; }
}
@media (width < 60rem) {
.guide-choosing > .guide-cover { display: contents; }
.guide-choosing .guide-drawing { position: sticky; inset-block-start: 0; z-index: 1; margin: 0; background: var(--guide-paper); border-block-end: 1px solid var(--guide-line); }
.guide-choosing .guide-drawing svg { max-block-size: 32vh; }
.guide-panel :is(input, select, button) { scroll-margin-block-start: 36vh; }
}
@media (width >= 60rem) {
.guide-readers .guide-pages, .guide-readers .guide-program, .guide-readers .guide-no-script { max-inline-size: 44rem; margin-inline: 25rem auto; }
.guide-readers .guide-panel { position: fixed; inset-block: 1rem; inset-inline-start: 1rem; inline-size: 22rem; margin: 0; overflow-y: auto; }
}
@media print {
.guide-readers .guide-panel, .guide-readers .guide-tick, .guide-no-script { display: none; }
.guide-readers .guide-pages, .guide-readers .guide-program { margin-inline: 0; max-inline-size: none; }
.guide-readers h1 { color: inherit; }
.guide-section[aria-busy='true'] { opacity: 1; }
}
@media (prefers-reduced-motion: reduce) { .guide-readers * { scroll-behavior: auto; transition: none; } }
`;

/** What a customer is handed: paper on the screen too, black on white, no letter under 9 pt. */
export const CUSTOMER_STYLES = `:root { color-scheme: light; }
.guide:has(> .paper) { --guide-ink: #000; --guide-quiet: #000; --guide-line: #999; --guide-paper: #fff; color: #000; background: #fff; font-size: 11pt; line-height: 1.4; }
.paper { max-inline-size: 186mm; margin-inline: auto; }
.paper h1 { font-size: 20pt; margin: 0; }
.paper h2 { font-size: 12.5pt; margin: 0 0 1mm; break-after: avoid; }
.paper p { margin: 0 0 1.5mm; orphans: 2; widows: 2; }
.paper-letterhead { display: flex; gap: 5mm; align-items: flex-end; padding-block-end: 2.5mm; margin-block-end: 3mm; border-block-end: 0.4mm solid #000; }
.paper-letterhead img { max-inline-size: 40mm; max-block-size: 20mm; }
.paper-letterhead strong, .paper-letterhead span { display: block; }
.paper-letterhead strong { font-size: 14pt; }
.paper-letterhead > div { margin-inline-start: auto; text-align: end; }
.paper-letterhead span { font-size: 10pt; }
.paper-begins { display: flex; justify-content: space-between; gap: 8mm; align-items: flex-start; margin-block-end: 3mm; }
.paper-kind { font-size: 13pt; font-weight: 600; }
.paper-begins .paper-about { flex: none; inline-size: 88mm; margin: 0; }
.paper-about > div { grid-template-columns: 24mm 1fr; }
.paper-facts { margin: 0 0 3mm; }
.paper-facts > div { display: grid; grid-template-columns: 36mm 1fr; gap: 3mm; padding-block: 0.6mm; border-block-end: 0.2mm solid #999; break-inside: avoid; }
.paper-two { display: grid; grid-template-columns: 1fr 1fr; gap: 0 8mm; }
.paper-two > div { grid-template-columns: 24mm 1fr; }
.paper-facts dd { margin: 0; font-weight: 600; }
.paper-drawing { margin-block: 0 3mm; break-inside: avoid; }
.paper-drawing svg { display: block; inline-size: 100%; block-size: auto; max-block-size: 56mm; }
.paper-view { break-inside: avoid; margin-block-end: 4mm; }
.paper-view svg { display: block; max-inline-size: 100%; margin-inline: auto; }
.paper-part { margin-block: 0 3.5mm; }
.paper-end { break-inside: avoid; }
.paper-end .paper-part:last-child { margin-block-end: 0; }
.paper-end .paper-signs p { line-height: 1.2; }
.paper-pair { display: grid; grid-template-columns: 1fr 1fr; gap: 0 8mm; break-inside: avoid; }
.paper-amounts { border-collapse: collapse; inline-size: 100%; margin-block: 0 1.5mm; }
.paper-amounts tr { break-inside: avoid; }
.paper-amounts th, .paper-amounts td { padding: 0.8mm 0; border-block-end: 0.2mm solid #999; font-weight: 400; text-align: start; vertical-align: baseline; }
.paper-amounts td { text-align: end; white-space: nowrap; padding-inline-start: 4mm; font-variant-numeric: lining-nums tabular-nums; }
.paper-amounts .paper-sum :is(th, td) { font-weight: 600; }
.paper-price .paper-sum :is(th, td) { font-size: 12.5pt; }
.paper-price, .paper-agreed { break-inside: avoid; }
.paper-seasons { border-collapse: collapse; inline-size: 100%; margin-block: 0 2mm; break-inside: avoid; }
.paper-seasons :is(th, td) { text-align: start; padding: 0.8mm 4mm 0.8mm 0; border-block-end: 0.2mm solid #999; vertical-align: baseline; }
.paper-seasons thead :is(th, td) { border-block-end-color: #000; font-weight: 600; }
.paper-seasons tbody th { font-weight: 400; }
.paper-seasons td { font-weight: 600; }
.paper-list { margin: 0 0 1.5mm; padding-inline-start: 5mm; }
.paper-list li { margin-block-end: 0.8mm; break-inside: avoid; }
.paper-signs { display: grid; grid-template-columns: 1fr 1fr; gap: 0 12mm; margin-block-start: 9mm; }
.paper-signs .paper-line { border-block-end: 0.3mm solid #000; block-size: 0; margin: 0 0 1mm; }
.paper-signs p { font-size: 9.5pt; margin: 0; }
.paper-lacks { border: 0.6mm solid #000; padding: 2mm 3mm; margin-block-end: 2mm; }
@media screen { .paper { padding-block: 8mm; } }
@media screen and (width < 40rem) { .paper-begins { display: block; } .paper-begins .paper-about { inline-size: auto; } .paper-pair, .paper-two { display: block; } }
@media print { .guide:has(> .paper) { font-size: 10.5pt; line-height: 1.35; } .paper { max-inline-size: none; } }
`;

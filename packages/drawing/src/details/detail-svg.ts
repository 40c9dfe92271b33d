import { DRAWING_STYLE } from '../style.ts';
import type { SvgOptions } from '../svg.ts';
import { arrowsPath, textGroup } from '../svg.ts';
import { escapeText, number, pathOf } from '../svg-text.ts';
import type { Segment } from '../views.ts';
import type { JointDetail } from './detail.ts';
import { detailNote, detailTitle } from './detail-words.ts';

/** A detail as SVG, in the size that its scale gives it. A user unit is 1 mm of the furniture. */
export function detailSvg(detail: JointDetail, { units, format, standalone }: SvgOptions): string {
  const { frame, layout, unit, scale } = detail;
  const [wide, tall] = [frame.right - frame.left, frame.top - frame.bottom];
  const box = [frame.left, -frame.top, wide, tall];
  const line = (name: string, segments: readonly Segment[]): string =>
    segments.length === 0
      ? ''
      : `<path class="${name}" vector-effect="non-scaling-stroke" d="${pathOf(segments)}"/>`;
  const shown = layout.labels.map(({ key, text }) => `${key} ${text}`).join(', ');
  const says = [`Sizes shown: ${shown}.`, detailNote(detail, format)];
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" class="kb-drawing kb-detail" role="img" width="${number(wide / scale)}mm" height="${number(tall / scale)}mm" viewBox="${box.map(number).join(' ')}">`,
    `<title>${escapeText(detailTitle(detail, units))}</title>`,
    `<desc>${escapeText(says.join(' '))}</desc>`,
    standalone === true ? `<style>${DRAWING_STYLE}</style>` : '',
    '<g class="kb-lines" fill="none" stroke="currentColor">',
    ...detail.faces.map(({ hatch }) => line('kb-hatch', hatch)),
    line('kb-adjacent', detail.adjacent),
    ...detail.faces.map(({ lines }) => line('kb-outline', lines)),
    line('kb-outline', detail.loose),
    line('kb-center', detail.middles),
    line('kb-break', detail.breaks),
    line('kb-dimension', layout.lines),
    line(
      'kb-face-mark',
      detail.marks.flatMap(({ lines }) => lines),
    ),
    arrowsPath(layout.arrows, unit),
    textGroup('kb-text', layout.labels, unit),
    '</g></svg>',
  ]
    .filter((part) => part !== '')
    .join('\n');
}

import type { BuiltStep } from '../steps/built.ts';
import type { Figure } from './figure.ts';
import { lengthOf, missing, needs } from './named-cells.ts';
import { n, type Spot } from './picture.ts';
import { across, measureOf, nameOf, type Plate, plated } from './plate.ts';
import type { Stage } from './stage.ts';
import { box, iron, line, ring, size, stroke, wood } from './strokes.ts';

const NAMES = ['tongue_length', 'tongue_width', 'button_thickness', 'groove_width', 'groove_edge'];

/** A button in its place, cut open, and from below. */
export function buttonsFigure(stage: Stage, step: BuiltStep): Figure | string {
  const { source } = stage;
  const lost = missing(source, NAMES);
  if (lost.length > 0) return needs('a button', lost);
  const [tongue = 0, width = 0, thick = 0, groove = 0, edge = 0] = NAMES.map((name) =>
    lengthOf(source, name),
  );
  const parts = stage.plan.parts.parts;
  const materialOf = (called: RegExp): string | undefined =>
    parts.find(({ name }) => called.test(name))?.material;
  const apron = lengthOf(source, 'apron_thickness') ?? tongue * 1.5;
  const gap = lengthOf(source, 'tongue_gap') ?? 0;
  const [body, upper] = [Math.max(tongue * 1.6, 25), 12];
  // Hidden above the tongue, the block reaches the top; its lower face is flush with that of the tongue.
  const deep = Math.max(thick, edge + groove);
  const below = deep - edge - groove;
  const wide = apron + gap + body;
  const high = upper + deep + groove;
  const scale = Math.min(270 / wide, 96 / high);
  const u = (mm: number): number => mm * scale;
  const print = stage.options.print === true;
  const [face, base] = [u(apron), u(upper)];
  const shoulder = u(apron + gap);
  const [tip, above, low] = [shoulder - u(tongue), base + u(edge), base + u(edge + groove)];
  const bottom = base + u(deep);
  const screw = shoulder + u(body) * 0.55;
  // Where the screw goes through, the button is as thick as the cell says: its head is let in from below.
  const head = base + u(thick);
  const open: Plate = {
    wide: u(wide) + 14,
    high: u(high) + 10,
    body: [
      wood(materialOf(/top|seat/i), box(0, 0, u(wide), base), print, 5),
      wood(
        materialOf(/apron|rail/i),
        ring([
          [0, base],
          [face, base],
          [face, above],
          [face - u(tongue) - 3, above],
          [face - u(tongue) - 3, low],
          [face, low],
          [face, u(high)],
          [0, u(high)],
        ]),
        print,
        4,
      ),
      wood(
        materialOf(/apron|rail/i),
        ring([
          [shoulder, base + 1],
          [u(wide), base + 1],
          [u(wide), bottom],
          [shoulder, bottom],
          ...(below > 0 ? ([[shoulder, low - 0.6]] as Spot[]) : []),
          [tip, below > 0 ? low - 0.6 : bottom],
          [tip, above + 1],
          [shoulder, above + 1],
        ]),
        print,
        6,
      ),
      stroke('kb-hidden', line([screw - 5, head], [screw + 5, head])),
      iron(box(screw - 1.6, base * 0.35, 3.2, head - base * 0.35)),
      iron(box(screw - 4, head, 8, 3.4)),
      across(tip, shoulder, Math.min(bottom, u(high)) + 8, -(bottom + 8 - low)),
      size([u(wide) + 7, base], [u(wide) + 7, head]),
    ],
    names: [
      ...nameOf(stage, 'Tongue', 'tongue_length', [(tip + shoulder) / 2, bottom + 8]),
      ...nameOf(stage, 'Thick at the screw', 'button_thickness', [u(wide) + 7, (base + head) / 2]),
      ...nameOf(stage, 'Groove', 'groove_width', [face - u(tongue) - 3, (above + low) / 2]),
      { words: 'Apron', spots: [[face * 0.2, (low + u(high)) / 2]] },
    ],
  };
  return plated(stage, step, [open, fromBelow(stage, tongue, body, width)], {
    says: 'A button with its tongue in the groove of the apron, cut open: a screw pulls it up to the top, and a hair is left between block and top.',
    caption:
      'Above: cut open, with its tongue in the groove. Below: the button from below; the lines are its grain.',
    drawn: ['tongue_length', 'tongue_width', 'button_thickness', 'groove_width'].map((name) =>
      measureOf(stage, step, name),
    ),
  });
}

function fromBelow(stage: Stage, tongue: number, body: number, width: number): Plate {
  const scale = Math.min(200 / (tongue + body), 46 / width);
  const [long, wide, step] = [(tongue + body) * scale, width * scale, tongue * scale];
  let grain = '';
  for (let y = wide * 0.2; y < wide * 0.95; y += wide * 0.2) grain += line([4, y], [long - 4, y]);
  return {
    wide: long + 12,
    high: wide,
    body: [
      wood(undefined, box(0, 0, long, wide), stage.options.print === true, 6),
      stroke('kb-quiet', grain),
      stroke('kb-new', line([step, 0], [step, wide])),
      `<circle class="kb-hole" fill="none" stroke="currentColor" stroke-width="1.2" cx="${n(step + (long - step) * 0.55)}" cy="${n(wide / 2)}" r="4"/>`,
      size([long + 8, 0], [long + 8, wide]),
    ],
    names: [
      ...nameOf(stage, 'Wide', 'tongue_width', [long + 8, wide / 2]),
      { words: 'Grain along the tongue', spots: [[step * 0.5, wide * 0.4]] },
    ],
  };
}

import { type Html, html, type Put } from './html.ts';
import { facts, list, type Making, paragraphs, section, warning } from './making.ts';

/** How it is finished, as the workbook names it; nothing where it names no finish and no coats. */
export function finishSection({ named, numberOf, own }: Making): Html | undefined {
  const lines = (
    [
      ['Finish', 'finish'],
      ['Sand with, in turn', 'grit_steps'],
      ['Coats', 'coats'],
      [numberOf('coats') === 1 ? 'Let it dry' : 'Between coats', 'recoat_hours'],
      ['Surface to finish', 'area_finish'],
      ['Finish needed', 'finish_volume'],
      ['Cans', 'finish_cans'],
    ] as const
  ).flatMap(([says, name]): readonly (readonly [Put, Put])[] => {
    const shown = named(name);
    return shown === undefined ? [] : [[own(says), shown]];
  });
  if (named('finish') === undefined && named('coats') === undefined) return undefined;
  return section(
    'finish',
    own('Finish'),
    html`${warning(own('Caution'), [
      own(
        'Lay rags with drying oil flat outdoors to dry, or keep them under water in a closed metal can: they can catch fire by themselves.',
      ),
      own(
        'Fresh air, gloves, and a respirator with the cartridge that the can asks for. No flames, no sparks.',
      ),
    ])}<p>${own('All faces and edges alike get the same coats, or a panel cups.')}</p>${facts(lines)}<p>${own('Let it cure as long as its maker says before food touches it.')}</p>`,
  );
}

/** How it is cared for: as the workbook says it, else what suits finished wood in general; common practice, no source. */
export function careSection(making: Making): Html | undefined {
  const { source, own, cuts, theirs } = making;
  if (!isCaredFor(making)) return undefined;
  const told = careTold(source);
  const isSolid = cuts().materials.some(({ mass }) => mass !== undefined);
  return section(
    'care',
    own('Care of it'),
    html`${paragraphs(source.head.guide?.after, theirs)}${
      told === undefined
        ? list([
            own(
              'Wipe it with a soft cloth, barely damp, and dry it afterward. No scouring powder, no steam.',
            ),
            own('Take up spills at once. Keep it out of strong sun and away from radiators.'),
            ...(isSolid
              ? [
                  own(
                    'Solid wood is a little wider in damp months and narrower in dry ones: fine gaps that come and go are normal.',
                  ),
                ]
              : []),
            own('Lift it to move it: dragging strains the joints.'),
          ])
        : paragraphs(told, theirs)
    }`,
  );
}

/** What the workbook says of its care. */
function careTold(source: Making['source']): string | undefined {
  const told = source.named('care')?.value;
  return told?.kind === 'text' && told.text.trim() !== '' ? told.text : undefined;
}

/** Whether a guide says how it is cared for: what its maker says last then stands there. */
export const isCaredFor = ({ source, plan }: Making): boolean =>
  careTold(source) !== undefined || plan.parts.parts.length > 0;

import { type Html, html } from '../page/html.ts';
import { capital } from '../page/making.ts';
import { beginning, factsOf, listOf, part, wordsOf } from './pieces.ts';
import type { Said } from './said.ts';

/** How a care note is made. */
export interface CareOptions {
  /** Its number; left out until it has one. */
  readonly number?: number | undefined;
  /** The day it is of, `2026-03-14`. */
  readonly day: string;
  /** False: without the letterhead of the shop. */
  readonly letterhead: boolean;
}

/** What the furniture does over the year, the air it wants, how it is cleaned, and what to mind. */
export function careMain(said: Said, { number, day, letterhead }: CareOptions): Html {
  const finish = said.shown('finish');
  const facts = [
    ...(said.wood === undefined ? [] : [['Wood', capital(said.wood)] as const]),
    ...(finish === undefined ? [] : [['Finish', capital(finish)] as const]),
  ];
  return html`${beginning(said, { kind: 'Care note', number, day, letterhead })}${factsOf(facts, 'paper-two')}${yearPart(
    said,
  )}${airPart(said)}${part('Cleaning', html`${finishLine(finish)}${cleaning(said)}`)}${part('Mind', listOf(mind(said)))}`;
}

/** The can knows better than any note. */
const finishLine = (finish: string | undefined): Html =>
  html`<p>What the maker of the finish says about cleaning, heat and renewing it goes before this note${finish === undefined ? '' : `; yours is ${lower(finish)}`}.</p>`;

const lower = (words: string): string =>
  /^[A-Z][a-z]/.test(words) ? words.slice(0, 1).toLowerCase() + words.slice(1) : words;

/** What the seasons do to it: in numbers where the workbook has them, else in words where some of it is solid wood. */
function yearPart(said: Said): Html | undefined {
  const dry = said.number('movement_from_build_dry');
  const humid = said.number('movement_from_build_humid');
  const swing = said.number('movement_swing');
  if (dry === undefined || humid === undefined) {
    return said.isSolid || swing !== undefined
      ? part(
          'Through the year',
          html`<p>Solid wood is a little wider in damp months and narrower in dry ones, across the grain; along the grain it hardly changes. ${swing === undefined ? '' : `Here that is ${said.travel(swing)} in all. `}Fine gaps that come and go with the seasons are normal, and no fault.</p>`,
        )
      : undefined;
  }
  const rows = [
    season(said, 'Dry season', 'dry', dry),
    season(said, 'Humid season', 'humid', humid),
  ];
  const hasAir = rows.some(({ air }) => air !== undefined);
  const hasWood = rows.some(({ wood }) => wood !== undefined);
  return part(
    'Through the year',
    html`<p>Wood takes up moisture from the air and gives it off again: in damp months the ${said.panel} is wider, in dry ones narrower. Across the grain that is ${said.travel(swing ?? humid - dry)} from one season to the other; along the grain it hardly changes. It was worked out for the air of a home like this:</p><table class="paper-seasons"><thead><tr><th></th>${hasAir ? html`<th scope="col">Air in the room</th>` : undefined}${hasWood ? html`<th scope="col">Moisture of the wood</th>` : undefined}<th scope="col">${capital(said.panel)}, since it was made</th></tr></thead><tbody>${rows.map(
      ({ name, air, wood, does }) =>
        html`<tr><th scope="row">${name}</th>${hasAir ? html`<td>${air ?? ''}</td>` : undefined}${hasWood ? html`<td>${wood ?? ''}</td>` : undefined}<td>${does}</td></tr>`,
    )}</tbody></table><p>The numbers are estimates. Fine gaps that come and go with the seasons are normal, and no fault. Never fasten the ${said.panel} in another way than it is: it has to be free to move.</p>`,
  );
}

function season(said: Said, name: string, of: 'dry' | 'humid', moves: number) {
  const rh = said.shown(`${of}_humidity`);
  const does =
    Math.abs(moves) < 1e-6
      ? 'no change'
      : `${said.travel(moves)} ${moves < 0 ? 'narrower' : 'wider'}`;
  return {
    name,
    air: rh === undefined ? undefined : `${rh} humidity`,
    wood: said.shown(`moisture_${of}`),
    does,
  };
}

/** Air as steady as a home allows; where nothing is named the figures are common practice, no source. */
function airPart(said: Said): Html | undefined {
  if (!said.isSolid && said.number('movement_swing') === undefined) return undefined;
  const [dry, humid] = [said.number('dry_humidity'), said.number('humid_humidity')];
  const from = said.shown('dry_humidity');
  const to = said.shown('humid_humidity');
  const keep =
    dry === undefined || humid === undefined || dry >= humid
      ? 'Keep the air as even as your home allows.'
      : `Keep the air between ${from} and ${to} humidity all year: within that, the wood moves as it was made to.`;
  return part(
    'The air it likes',
    html`<p>${keep} A small hygrometer shows it. Where heating dries the air in winter, a humidifier helps; where summers are damp, fresh dry air or a dehumidifier does. Sudden changes are the worst.</p>`,
  );
}

/** As the workbook says it, else what suits finished furniture in general: common practice, no source. */
function cleaning(said: Said): Html {
  const told = said.shown('care');
  if (told !== undefined) return wordsOf(told);
  return listOf([
    'Dust it with a soft cloth. Wipe it with one that is barely damp, along the grain, and dry it afterward.',
    'No scouring powder, no wet wipes, no steam, no polish with silicone: it makes the finish hard to renew.',
    said.isDoor
      ? 'Take up spills at once.'
      : 'Take up spills at once: water that stands leaves marks, and so do wine and oil.',
  ]);
}

/**
 * Common practice, no source; but that furniture one can climb is fastened to a wall is what the U.S. Consumer Product
 * Safety Commission asks of households.
 */
function mind(said: Said): readonly string[] {
  const { weight } = said;
  return [
    ...(said.isDoor
      ? []
      : ['Heat: put something under hot dishes, pans and cups, and under glasses that sweat.']),
    'Sun and radiators: keep it out of strong sun and away from heaters. Wood changes color in the light; move what stands on it now and then.',
    'Rags: one with oil, wax or polish in it can catch fire by itself. Lay it flat outdoors to dry, or keep it under water in a closed metal can.',
    ...(said.isCase
      ? [
          'Tipping: keep it fastened to the wall, for children climb. Heavy things belong at the bottom; no drawer or door is a step.',
        ]
      : []),
    ...(said.isCase || said.isDoor
      ? []
      : ['Climbing: it is no ladder. Do not stand or let children climb on it.']),
    ...(said.isDoor
      ? []
      : [
          `Moving: lift it, do not drag it: dragging strains the joints.${weight === undefined ? ' Lift with enough hands.' : ` It weighs about ${weight}: lift with enough hands, backs straight.`}`,
        ]),
    'If something loosens, splits or sticks, leave it as it is and call us.',
  ];
}

import { FILM_ALSO_CALLED, FILM_ROWS, FILM_SOURCE, type FilmRow } from './data/finish-films.ts';
import { acrossGrain, takenUp } from './diffusion.ts';
import { gravityAt } from './gravity.ts';
import { type Guarded, words } from './guards.ts';
import { emc } from './moisture.ts';
import { notKnown } from './nearest.ts';
import { rests } from './rests.ts';
import { specificGravity } from './species.ts';

const DAY = 86_400;
/** Kelvin of a Fahrenheit temperature. */
export const kelvin = (fahrenheit: number): number => (fahrenheit + 459.67) / 1.8;

/** The panels of the published test: 5/8 in thick, 80 °F, from 30 to 90 % (thickness from memory). */
export const TEST_PANEL = {
  species: 'Pine, ponderosa',
  thickness: 0.625 * 0.0254,
  temperature: 80,
  from: emc(80, 30),
  to: emc(80, 90),
} as const;

/**
 * Vapour that still indoor air carries to a face, kg/(m² s) for a difference of 1 (100 %) in
 * moisture content: heat transfer of 3 W/(m² K) over 1200 J/(m³ K) gives 0.0025 m/s (Lewis; values
 * from memory), times the saturated vapour of 70 °F, 0.0184 kg/m³, times the humidity that a
 * difference in moisture content stands for between 30 and 60 %.
 */
function airConductance(): number {
  const humidityForMoisture = 0.3 / ((emc(70, 60) - emc(70, 30)) / 100);
  return (3 / 1200) * 0.0184 * humidityForMoisture;
}

/** Two resistances one after the other, as what they let through. */
const inSeries = (a: number, b: number): number => 1 / (1 / a + 1 / b);

const ovendry = (species: string, moisture: number): number =>
  1000 * gravityAt(specificGravity(species), moisture);

/**
 * What a film would have to let through to keep out what it did in the published test.
 * @returns kg/(m² s) for a difference of 1 in moisture content
 * Fitted to the three published figures by least squares, with {@link takenUp} for the panel.
 */
function fitted({ excluded }: FilmRow): number {
  const moisture = (TEST_PANEL.from + TEST_PANEL.to) / 2;
  const density = ovendry(TEST_PANEL.species, moisture);
  const across = acrossGrain(density / 1000, moisture, kelvin(TEST_PANEL.temperature));
  const half = TEST_PANEL.thickness / 2;
  const after = (days: number, conductance: number): number =>
    takenUp((across * days * DAY) / half ** 2, (half * conductance) / density / across);
  const air = airConductance();
  const misses = (logarithm: number): number =>
    [1, 7, 14].reduce((sum, days, i) => {
      const kept = 1 - after(days, inSeries(air, 10 ** logarithm)) / after(days, air);
      return sum + (100 * kept - (excluded[i] ?? 0)) ** 2;
    }, 0);
  let [low, high] = [-9, -1];
  for (let i = 0; i < 60; i += 1) {
    const third = (high - low) / 3;
    if (misses(low + third) < misses(high - third)) high -= third;
    else low += third;
  }
  return 10 ** ((low + high) / 2);
}

const known = new Map<string, number>();
const label = ({ name, coats }: FilmRow): string =>
  `${name}, ${coats} ${coats === 1 ? 'coat' : 'coats'}`;
const USUAL_COATS = 2;
/** How a maker may leave a face bare. */
const BARE = 'none';

/** Every finish a face may have, as it is written in a cell. */
export const filmNames = (): readonly string[] => [BARE, ...FILM_ROWS.map(label)];

/**
 * Transfer coefficient of a face with a finish, air and film together.
 * @param argument what the finish was given as
 * @param finish `none`, or a finish of the table with its coats: `shellac, 3 coats`; two when not said
 * @param density ovendry mass of the wood, kg/m³
 * @returns m/s
 * @throws Fault `kind`, `unknown`
 */
export function faceTransfer(argument: Guarded, finish: string, density: number): number {
  const takes = 'a finish of the table, such as "varnish, 3 coats", or "none"';
  const asked = words(argument, finish, takes);
  const air = airConductance();
  if (asked.toLowerCase() === BARE) return air / density;
  const row = rowOf(asked.toLowerCase());
  if (row === undefined) throw notKnown(argument, asked, takes, filmNames());
  const name = label(row);
  const film = known.get(name) ?? fitted(row);
  known.set(name, film);
  return inSeries(air, film) / density;
}

/** Notes the film of a finish as what a result rests on; a finish that is not known is told elsewhere. */
export function filmTaken(finish: string): void {
  const row = rowOf(finish.trim().toLowerCase());
  if (row === undefined) return;
  rests({
    of: `${label(row)}: vapor kept out in 1, 7 and 14 days, ${row.excluded.join(', ')} %`,
    how: row.how,
    source: FILM_SOURCE,
  });
}

function rowOf(asked: string): FilmRow | undefined {
  const [, name = '', count] = /^(.*?)(?:,?\s+(\d+)\s+coats?)?$/.exec(asked) ?? [];
  const coats = count === undefined ? USUAL_COATS : Number(count);
  const listed = FILM_ALSO_CALLED[name] ?? name;
  return FILM_ROWS.find((row) => row.name === listed && row.coats === coats);
}

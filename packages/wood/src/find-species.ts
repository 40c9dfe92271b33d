import { textOf } from './arguments.ts';
import { COVERS_SEVERAL, SAME_WOOD, USUAL_WOODS } from './data/trade-names.ts';
import { Fault } from './fault.ts';
import { type Guarded, words } from './guards.ts';
import { nearHint, nearNames } from './nearest.ts';
import { hasOwnRow, type OwnRow, ownFigure } from './own.ts';
import type { Quantity } from './quantity.ts';
import { rests } from './rests.ts';
import { type Figure, SPECIES, type Species, type SpeciesProperty } from './species-records.ts';

export const SPECIES_ARGUMENT = textOf(
  'species',
  'the wood, by any usual name: "white oak", "Oak, white", "Quercus alba"',
);

const TAKES = 'one species of the tables';
const NAMES_SHOWN = 6;
/** Words that tell no wood from another. */
const EMPTY_WORDS = new Set(['and', 'or', 'sp', 'spp', 'ssp', 'var', 'wood', 'lumber']);

/** The words of a name, in alphabetical order: "Oak, white" and "white oak" become the same. */
function wordsOf(name: string): readonly string[] {
  const plain = name.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase().replaceAll('ß', 'ss');
  const all = plain.split(/[^a-z0-9]+/).filter((word) => word !== '' && !EMPTY_WORDS.has(word));
  return [...new Set(all)].sort();
}

const keyOf = (name: string): string => wordsOf(name).join(' ');

interface Label {
  readonly key: string;
  readonly words: ReadonlySet<string>;
  readonly species: Species;
  /** A trade name, which no row of a table has, counts only whole: "cherry" is not Brazilian cherry. */
  readonly whole: boolean;
}

const LABELS: readonly Label[] = SPECIES.flatMap((species) =>
  [species.name, species.indexed, ...species.alsoCalled, species.botanical]
    .filter((name) => name !== '')
    .map((name) => ({
      key: keyOf(name),
      words: new Set(wordsOf(name)),
      species,
      whole: species.alsoCalled.includes(name) && SAME_WOOD[name] === undefined,
    })),
);

/** Woods by the whole of one of their names, the way most cells ask. */
const BY_KEY = new Map<string, readonly Species[]>();
for (const { key, species } of LABELS) {
  const known = BY_KEY.get(key) ?? [];
  if (!known.includes(species)) BY_KEY.set(key, [...known, species]);
}

const BY_INDEX = new Map(SPECIES.map((species) => [species.indexed, species]));

const SEVERAL = new Map(
  Object.entries(COVERS_SEVERAL).map(([name, members]) => [
    keyOf(name),
    members.flatMap((member) => BY_INDEX.get(member) ?? []),
  ]),
);

/** Texts asked for lately: a sheet asks for the same few woods in hundreds of cells. */
const lately = new Map<string, readonly Species[]>();
const MOST_KEPT = 500;

/** The woods a text may mean: none, the one, or several to choose from. */
function candidates(text: string): readonly Species[] {
  const kept = lately.get(text);
  if (kept !== undefined) return kept;
  const found = sought(text);
  if (lately.size >= MOST_KEPT) lately.clear();
  lately.set(text, found);
  return found;
}

function sought(text: string): readonly Species[] {
  const wanted = wordsOf(text);
  if (wanted.length === 0) return [];
  const key = wanted.join(' ');
  const whole = BY_KEY.get(key) ?? SEVERAL.get(key);
  if (whole) return whole;
  const part = LABELS.filter(
    (label) => !label.whole && wanted.every((word) => label.words.has(word)),
  );
  return usualFirst([...new Set(part.map((label) => label.species))]);
}

function usualFirst(species: readonly Species[]): readonly Species[] {
  const usual = species.filter(({ indexed }) => USUAL_WOODS.includes(indexed));
  return [...usual, ...species.filter(({ indexed }) => !USUAL_WOODS.includes(indexed))];
}

/** Every name of a wood, each with the one that people say; usual woods first. */
const NAMES: ReadonlyMap<string, string> = new Map(
  usualFirst(SPECIES).flatMap(({ name, indexed, alsoCalled, botanical }) =>
    [name, indexed, ...alsoCalled, botanical].filter((one) => one !== '').map((one) => [one, name]),
  ),
);

const USUAL_NAMES = USUAL_WOODS.map((indexed) => BY_INDEX.get(indexed)?.name ?? indexed);

/** Names of the woods that may have been meant by a text, nearest first. */
function nearestWoods(text: string): readonly string[] {
  const near = nearNames(text, [...NAMES.keys()], NAMES_SHOWN * 4);
  return [...new Set(near.flatMap((name) => NAMES.get(name) ?? []))];
}

const listed = (names: readonly string[], most: number): string => {
  const shown = names.slice(0, most).map((name) => `"${name}"`);
  const more = names.length - shown.length;
  return more > 0 ? `${shown.join(', ')} and ${more} more` : shown.join(', ');
};

function unknown(
  argument: Guarded,
  got: string,
  takes: string,
  hint: string,
  problem?: string,
): Fault {
  return new Fault({
    class: 'unknown',
    argument: argument.name,
    got,
    quantity: 'text',
    takes,
    hint,
    ...(problem === undefined ? {} : { problem }),
  });
}

/**
 * The wood a text names; case, spaces, punctuation and the order of the words do not matter, and a
 * part of a name will do where only one wood has it.
 * @throws Fault `kind` when missing or not text; `unknown` when no wood, or more than one, fits
 */
export function findSpecies(text: string, argument: Guarded = SPECIES_ARGUMENT): Species {
  const asked = words(argument, text, TAKES);
  const found = candidates(asked);
  const [only] = found;
  if (only && found.length === 1) return only;
  const names = found.map((species) => species.name);
  if (only)
    throw unknown(
      argument,
      asked,
      TAKES,
      `It could be ${listed(names, NAMES_SHOWN)}.`,
      'names more than one wood',
    );
  throw unknown(argument, asked, TAKES, nearHint(nearestWoods(asked).slice(0, 3), USUAL_NAMES));
}

/** The woods that a text may mean: none, the one, or several to choose from; with each, those it is told apart from. */
export function woodsMeant(text: string): readonly Species[] {
  const found = candidates(text);
  return found.flatMap((species) =>
    PROPERTIES.every((property) => species.figures[property] !== undefined)
      ? [species]
      : SPECIES.filter((other) => isKin(species, other)),
  );
}

/** Every name of the wood that a text names; none where it names none, or more than one. */
export function speciesCalled(text: string): readonly string[] {
  const [only, ...others] = candidates(text);
  if (only === undefined || others.length > 0) return [];
  return [only.name, only.indexed, ...only.alsoCalled, only.botanical].filter(
    (name) => name !== '',
  );
}

const familyOf = ({ indexed }: Species): string => indexed.split(/[,(]/)[0]?.trim() ?? indexed;

const isKin = (one: Species, other: Species): boolean => familyOf(one) === familyOf(other);

const PROPERTY_WORDS: Record<SpeciesProperty, string> = {
  tangential: 'movement coefficient',
  radial: 'movement coefficient',
  specificGravity: 'specific gravity',
  stiffness: 'stiffness',
  bendingStrength: 'bending strength',
  hardness: 'hardness',
};

const PROPERTIES = Object.keys(PROPERTY_WORDS) as readonly SpeciesProperty[];

/** How a figure is named where a result tells what it rests on, and what it is. */
const FIGURE_IS: Record<SpeciesProperty, readonly [words: string, quantity: Quantity]> = {
  tangential: ['movement for 1 %, flat-sawn', 'movement_rate'],
  radial: ['movement for 1 %, quarter-sawn', 'movement_rate'],
  specificGravity: ['specific gravity', 'number'],
  stiffness: ['stiffness', 'pressure'],
  bendingStrength: ['bending strength', 'pressure'],
  hardness: ['hardness', 'force'],
};

/** A wood's name where a line begins with it. */
const atFront = (name: string): string => `${name.charAt(0).toUpperCase()}${name.slice(1)}`;

function taken(wood: string, property: SpeciesProperty, figure: Figure): Figure {
  const [words, quantity] = FIGURE_IS[property];
  rests({ of: `${wood}: ${words}`, quantity, ...figure });
  return figure;
}

/** Woods of the same family, "Oak" of "Oak, white (commercial)", that have the property. */
function kinWith(species: Species, property: SpeciesProperty): readonly string[] {
  const kin = SPECIES.filter((other) => other.figures[property] && isKin(species, other));
  return usualFirst(kin).map((other) => other.name);
}

/** Whether the wood a text names is a hardwood; a wood of the maker's own counts as one. */
export function woodClassOf(text: string): Species['woodClass'] {
  const own = typeof text === 'string' && hasOwnRow('woods', isOwn(text));
  return own && candidates(text).length !== 1 ? 'hardwood' : findSpecies(text).woodClass;
}

const OWN_COLUMNS: Partial<Record<SpeciesProperty, string>> = {
  tangential: 'tangential',
  radial: 'radial',
  specificGravity: 'gravity',
  stiffness: 'stiffness',
  hardness: 'hardness',
};

/** The wood of the tables that has a key for the whole of one of its names, where only one has. */
function wholly(key: string): Species | undefined {
  const [only, ...others] = BY_KEY.get(key) ?? [];
  return others.length === 0 ? only : undefined;
}

/** Keys of names that were asked for lately: lists of woods are gone through again and again. */
const keysLately = new Map<string, string>();
const MOST_KEYS = 5000;

function keyLately(name: string): string {
  const known = keysLately.get(name);
  if (known !== undefined) return known;
  if (keysLately.size >= MOST_KEYS) keysLately.clear();
  const key = keyOf(name);
  keysLately.set(name, key);
  return key;
}

/**
 * Whether a name in a list of the maker's own is of the wood that a text names: by the same name, or by another of a
 * wood that the tables know; whole names only.
 */
export function namesSameWood(text: string): (name: string) => boolean {
  const wanted = keyLately(text);
  const wood = wholly(wanted);
  // A name in other letters has no key.
  const letter = text.trim().toLowerCase();
  return (name) => {
    const key = keyLately(name);
    if (key === '' || wanted === '') return name.trim().toLowerCase() === letter;
    return key === wanted || (wood !== undefined && wholly(key) === wood);
  };
}

/** The same of a row of the maker's own woods. */
function isOwn(text: string): (row: OwnRow) => boolean {
  let isMeant: ((name: string) => boolean) | undefined;
  return ({ species }) => {
    isMeant ??= namesSameWood(text);
    return typeof species === 'string' && isMeant(species);
  };
}

/** The maker's own figure, which wins; `undefined` leaves it to the published tables. */
function ownWood(text: unknown, property: SpeciesProperty): Figure | undefined {
  if (typeof text !== 'string') return undefined;
  const value = ownFigure('woods', isOwn(text), OWN_COLUMNS[property] ?? property);
  if (value !== undefined)
    return { value, how: 'own', source: 'the table of woods of this workbook' };
  if (!hasOwnRow('woods', isOwn(text)) || candidates(text).length === 1) return undefined;
  const what = PROPERTY_WORDS[property];
  throw unknown(
    SPECIES_ARGUMENT,
    text.trim(),
    `a species that has a ${what}`,
    'Put it into the table of woods of this workbook.',
    `has no ${what}`,
  );
}

/**
 * One property of the wood a text names, with its source and how it was obtained.
 * @throws Fault as {@link findSpecies}; `unknown` when the tables hold no such value for the wood
 */
export function speciesFigure(
  text: string,
  property: SpeciesProperty,
  argument: Guarded = SPECIES_ARGUMENT,
): Figure {
  const own = ownWood(text, property);
  if (own !== undefined) return taken(text.trim(), property, own);
  const species = findSpecies(text, argument);
  const figure = species.figures[property];
  if (figure) return taken(atFront(species.name), property, figure);
  const what = PROPERTY_WORDS[property];
  const kin = kinWith(species, property);
  const hint = kin.length > 0 ? `Nearest: ${listed(kin, 3)}.` : 'Measure a piece instead.';
  throw unknown(
    argument,
    species.name,
    `a species that has a published ${what}`,
    hint,
    `has no published ${what}`,
  );
}

/** Names of all woods, or of those that have every property asked for, in alphabetical order. */
export function speciesNames(...having: readonly SpeciesProperty[]): readonly string[] {
  return SPECIES.filter((species) =>
    having.every((property) => species.figures[property] !== undefined),
  )
    .map((species) => species.name)
    .sort((a, b) => a.localeCompare(b, 'en'));
}

/**
 * The one of some names that means the same wood as a text, whatever name each goes by: "Acer saccharum",
 * "Maple, sugar" and "hard maple" find `sugar maple`. A text that names no wood, or may mean several, and
 * one whose wood is not among the names, finds none.
 */
export function sameWood(text: string, names: readonly string[]): string | undefined {
  const [wood, ...others] = candidates(text);
  if (wood === undefined || others.length > 0) return undefined;
  return names.find((name) => {
    const [one, ...more] = candidates(name);
    return one === wood && more.length === 0;
  });
}

/** What is the same for all names of one wood: its index name; of anything else, the letters. */
export function materialKind(text: string): string {
  const letters = text.trim().toLowerCase();
  const [wood, ...others] = letters === '' ? [] : candidates(text);
  return wood === undefined || others.length > 0 ? letters : wood.indexed.toLowerCase();
}

import { sameWood, speciesNames } from '@kerfbook/wood';

/** Woods by the name of their family, and sheet goods, as lists say them. */
const FAMILIES =
  'oak maple ash walnut cherry mahogany poplar birch beech pine cedar fir spruce hickory elm alder teak larch redwood cypress ' +
  'sapele ipe wenge iroko padauk bubinga purpleheart rosewood ebony basswood';
const KINDS = [
  'white',
  'red',
  'black',
  'hard',
  'soft',
  'sugar',
  'european',
  'american',
  'yellow',
  'douglas',
  'baltic',
];
const SHEETS = [
  'plywood',
  'ply',
  'mdf',
  'osb',
  'melamine',
  'hardboard',
  'particleboard',
  'particle board',
  'chipboard',
  'blockboard',
];

let woods: ReadonlySet<string> | undefined;

function allWoods(): ReadonlySet<string> {
  if (woods !== undefined) return woods;
  const families = FAMILIES.split(' ');
  const made = [...families, ...KINDS.flatMap((kind) => families.map((one) => `${kind} ${one}`))];
  const sheets = SHEETS.flatMap((one) => [one, ...made.map((wood) => `${wood} ${one}`)]);
  woods = new Set([...made, ...sheets, ...speciesNames().map((name) => name.toLowerCase())]);
  return woods;
}

/** Whether words are sheet goods, sold by the sheet and cut both ways. */
export const isSheet = (text: string): boolean =>
  /\b(?:sheets?|ply|plywood|mdf|osb|melamine|hardboard|particle ?board|chipboard|blockboard)\b/i.test(
    text,
  );

/** Woods at an end of some words, longest first: `black walnut legs`, `Top, white oak`. */
export interface WoodIn {
  readonly wood: string;
  /** What is left of the words; empty where all of it is a wood. */
  readonly rest: string;
}

const MOST_WORDS = 4;

/** The wood that some words begin or end with; undefined where they name none. */
export function woodIn(text: string, own: readonly string[]): WoodIn | undefined {
  const words = text.split(' ').filter((word) => word !== '');
  const isWood = (some: readonly string[]): boolean => {
    const said = some
      .join(' ')
      .replace(/[,.()]/g, '')
      .trim()
      .toLowerCase();
    return said !== '' && (allWoods().has(said) || own.some((one) => one.toLowerCase() === said));
  };
  for (let many = Math.min(MOST_WORDS, words.length); many > 0; many -= 1) {
    const [last, first] = [words.slice(-many), words.slice(0, many)];
    if (isWood(last)) return { wood: bare(last), rest: bare(words.slice(0, -many)) };
    if (isWood(first)) return { wood: bare(first), rest: bare(words.slice(many)) };
  }
  return undefined;
}

const bare = (words: readonly string[]): string =>
  words
    .join(' ')
    .replace(/^[\s,.()-]+|[\s,.()-]+$/g, '')
    .trim();

/** What the workbook calls a wood: `walnut` is its `black walnut`, where it has one wood of that name. */
export function asOwn(wood: string, own: readonly string[]): string {
  const said = wood.toLowerCase();
  const exact = own.find((one) => one.toLowerCase() === said);
  if (exact !== undefined) return exact;
  const same = sameWood(wood, own);
  if (same !== undefined) return same;
  const [only, ...others] = own.filter((one) => one.toLowerCase().split(' ').includes(said));
  return only !== undefined && others.length === 0 ? only : wood;
}

import { finishedWhole, isShaped } from '@kerfbook/functions/shaped';
import { boardFeet, Fault, findSpecies, materialKind, woodWeight } from '@kerfbook/wood';
import type { At, OpenWorkbook } from '@kerfbook/workbook';
import type { Part } from '../parts.ts';
import { piecesDiffer, pieceWords } from '../piece-words.ts';
import { shoulderLength } from './shoulders.ts';

/** One line of the cut list: pieces of one size; mm. */
export interface CutItem {
  /** Names the pieces on the bench: `Long apron`, `Top, board`. */
  readonly name: string;
  /** The cell that holds the part's name. */
  readonly at: At;
  /** The cell that takes of how many boards it is glued up; left out where there is no such column. */
  readonly boardsAt?: At;
  /** How many pieces alike, 1 or more. */
  readonly count: number;
  /** Finished thickness; of a layer of a laminated part, its own. */
  readonly thickness: number;
  /** As it is cut: of a board of a panel, before jointing. */
  readonly width: number;
  /** As it is cut: of a board of a panel, before trimming. */
  readonly length: number;
  /** As the parts table says it; empty where it does not. */
  readonly material: string;
  /** The side the grain runs along; left out where the row does not say. */
  readonly grain?: 'length' | 'width';
  /** What is shaped from these pieces, where it is more than their sizes say: `shapingSteps` tells how. */
  readonly shaped?: Part;
  /** Where each piece stands, where they are not made alike: `front left`. */
  readonly which?: readonly string[];
  /** How long it is between the shoulders of its tenons; left out where it has none. */
  readonly shoulders?: number;
  /** The part these pieces are glued up to, its finished width and length, and its thickness where that is another one. */
  readonly becomes?: {
    readonly part: string;
    readonly width: number;
    readonly length: number;
    readonly thickness?: number;
  };
  /** The part these pieces are layers of, or boards of its layers: how many layers, and how thick all are together. */
  readonly laminates?: {
    readonly part: string;
    readonly layers: number;
    readonly thickness: number;
  };
}

/** What has to be cut, and what it comes to. */
export interface CutList {
  /** In the order of the parts table. */
  readonly items: readonly CutItem[];
  /** By material, in the order in which they first appear. */
  readonly materials: readonly MaterialSum[];
  /** How many pieces there are in all lines together. */
  readonly pieces: number;
}

/** What all pieces of one material come to. */
export interface MaterialSum {
  /** As the parts table says it; empty where it does not. */
  readonly material: string;
  /** How many pieces are cut from it. */
  readonly pieces: number;
  /** mm³ of finished parts. */
  readonly volume: number;
  /** mm² of all their faces, ends and edges: what could be finished. */
  readonly area: number;
  /** Board feet of the pieces as they are cut, on their own thickness (NHLA: under 1 in as 1 in). */
  readonly boardFeet: number;
  /** kg of finished parts at the moisture that was asked for; left out where the material is no wood that is known. */
  readonly mass?: number;
}

const MM_PER_INCH = 25.4;
/** Exact by definition (NIST SP 811, appendix B). */
const KG_PER_POUND = 0.45359237;

/** What wood is weighed at where a workbook does not say, %: what the tables of its density are for. */
const TABLE_MOISTURE = 12;

/**
 * How moist a workbook's parts are when they are weighed, %: the cell named `moisture_build`, so that the weight is the one
 * that the workbook's own formulas come to. 12 where there is none, or no moisture in it.
 */
export function moistureOf(book: Pick<OpenWorkbook, 'named'>): number {
  const value = book.named('moisture_build')?.value;
  if (value?.kind !== 'number' || value.number < 0 || value.number > 100) return TABLE_MOISTURE;
  return value.number;
}

/**
 * The pieces to cut, in the order of the parts table; wide parts as the boards they are glued up of.
 * @param moisture %, at which they are weighed
 */
export function cutList(parts: readonly Part[], moisture = TABLE_MOISTURE): CutList {
  const cut = parts.filter(({ unread }) => unread !== true);
  const items = cut.map(itemOf);
  const materials = new Map<string, { says: string; parts: Part[]; items: CutItem[] }>();
  for (const [i, part] of cut.entries()) {
    const says = part.material ?? '';
    const key = materialKind(says);
    const group = materials.get(key) ?? { says, parts: [], items: [] };
    group.parts.push(part);
    const item = items[i];
    if (item !== undefined) group.items.push(item);
    materials.set(key, group);
  }
  return {
    items,
    materials: [...materials.values()].map((group) => sumOf(group, moisture)),
    pieces: items.reduce((sum, { count }) => sum + count, 0),
  };
}

/** What glued-up boards are to become, mm: thickness where that is another one than theirs, width and length. */
export const gluedSizes = ({
  thickness,
  width,
  length,
}: NonNullable<CutItem['becomes']>): readonly number[] => [
  ...(thickness === undefined ? [] : [thickness]),
  width,
  length,
];

function itemOf(part: Part): CutItem {
  const { at, name, width, length, material = '', grain } = part;
  const { panelBoards, boardsAt, layers = 1 } = part;
  const thickness = part.thickness / layers;
  const count = part.count * layers;
  const isLaminated = layers > 1;
  const about = {
    at,
    thickness,
    material,
    ...(isLaminated ? { laminates: { part: name, layers, thickness: part.thickness } } : {}),
    ...(grain === undefined ? {} : { grain }),
    ...(isShaped(part) ? { shaped: part } : {}),
    ...(boardsAt === undefined ? {} : { boardsAt }),
  };
  if (panelBoards === undefined) {
    const sizes = { count, width, length };
    return isLaminated
      ? { ...about, name: `${name}, layer`, ...sizes }
      : { ...about, name, ...sizes, ...madeOf(part) };
  }
  return {
    ...about,
    thickness: panelBoards.thickness ?? thickness,
    name: isLaminated ? `${name}, board of a layer` : `${name}, board`,
    count: count * panelBoards.count,
    width: panelBoards.width,
    length: panelBoards.length,
    becomes: {
      part: name,
      width,
      length,
      ...(panelBoards.thickness === undefined ? {} : { thickness }),
    },
  };
}

/** What a piece that is cut in one is to become: where it goes, and what fits between others. */
function madeOf(part: Part): Pick<CutItem, 'which' | 'shoulders'> {
  const which = piecesDiffer(part) ? pieceWords(part) : undefined;
  const shoulders = shoulderLength(part);
  return {
    ...(which === undefined ? {} : { which }),
    ...(shoulders === undefined ? {} : { shoulders }),
  };
}

function sumOf(
  {
    says: material,
    parts,
    items,
  }: { says: string; parts: readonly Part[]; items: readonly CutItem[] },
  moisture: number,
): MaterialSum {
  const { volume, area } = finishedWhole(parts.map((part) => ({ part, placing: part.placing })));
  const feet = items.reduce(
    (sum, { thickness, width, length, count }) =>
      sum + boardFeet(thickness / MM_PER_INCH, width / MM_PER_INCH, length / MM_PER_INCH, count),
    0,
  );
  const mass = massOf(material, volume, moisture);
  return {
    material,
    pieces: items.reduce((sum, { count }) => sum + count, 0),
    volume,
    area,
    boardFeet: feet,
    ...(mass === undefined ? {} : { mass }),
  };
}

function massOf(material: string, volume: number, moisture: number): number | undefined {
  if (!isKnownWood(material)) return undefined;
  return woodWeight(material, volume / MM_PER_INCH ** 3, moisture) * KG_PER_POUND;
}

function isKnownWood(material: string): boolean {
  if (material.trim() === '') return false;
  try {
    findSpecies(material);
    return true;
  } catch (error) {
    // A material that is no wood of the tables has no weight here.
    if (error instanceof Fault) return false;
    throw error;
  }
}

import { isShaped, madePiece } from '@kerfbook/functions/shaped';
import { listed, type Side } from '@kerfbook/wood';
import { type CutAngle, cutAngles } from '../cut-angles.ts';
import type { Part } from '../parts.ts';
import type { Format } from '../units.ts';

/**
 * How a part comes from its blank, in the order of the bench: what takes flat faces and square ends to be held
 * first, edges last. Common practice, no source.
 * @returns nothing for a part that is a box
 */
export function shapingSteps(part: Part, format: Format): readonly string[] {
  if (!isShaped(part)) return [];
  const made = madePiece(part, part.placing, 0, format);
  if (made === undefined) return [];
  const { cuts = [], blank } = made.shape;
  const isRod = part.form?.outline?.kind === 'rod';
  const isTapered = cuts.some(({ kind }) => kind === 'taper');
  const outline = blank.kind === 'box' ? undefined : outlineStep(part, format);
  const steps = [
    isRod ? undefined : outline,
    ...endSteps(part),
    // A fence and clamps take square faces, and sizes are measured from them: common practice, no source.
    isRod || isTapered ? joinStep(part) : undefined,
    isRod ? outline : undefined,
    isTapered ? taperStep(part, cuts, format) : undefined,
    cuts.some(({ kind }) => kind === 'arch')
      ? `saw the arch, ${format(part.form?.arch ?? 0)} high`
      : undefined,
    cuts.some(({ kind }) => kind === 'roundover' || kind === 'chamfer' || kind === 'cove')
      ? edgeStep(part, format)
      : undefined,
  ];
  return steps.filter((step) => step !== undefined);
}

function outlineStep({ form, length, width, thickness }: Part, format: Format): string {
  switch (form?.outline?.kind) {
    case 'round':
      return `cut round, ${format(length)} across`;
    case 'oval':
      return `cut oval, ${format(length)} by ${format(width)}`;
    case 'superellipse':
      return `cut to the superellipse, ${format(length)} by ${format(width)}`;
    case 'rounded':
      return `round the corners, radius ${format(form.outline.radius)}`;
    default:
      return width === thickness
        ? `turn round, ${format(width)} across`
        : `round it, ${format(width)} by ${format(thickness)}`;
  }
}

function endSteps(part: Part): readonly string[] {
  const angles = cutAngles(part);
  const [first, second] = angles;
  if (first === undefined) return [];
  const isLevel = part.lean !== undefined && (part.form?.ends?.cuts.length ?? 0) === 0;
  const does = isLevel ? 'level' : 'cut';
  const alike = second !== undefined && second.says === first.says;
  if (alike) return [`${does} both ends: ${setting(first)}`];
  return angles.map((angle) => `${does} the ${END_NAMES[angle.end]}: ${setting(angle)}`);
}

const setting = ({ says, isMirrored }: CutAngle): string =>
  isMirrored ? `${says}, in mirrored pairs` : says;

const END_NAMES: Readonly<Record<Side, string>> = {
  left: 'left end',
  right: 'right end',
  front: 'front end',
  back: 'back end',
  top: 'top end',
  bottom: 'foot',
};

type Cuts = NonNullable<NonNullable<ReturnType<typeof madePiece>>['shape']['cuts']>;

/** What is cut into a piece that does not keep its square faces, for as long as it has them. */
function joinStep({ cuts }: Part): string | undefined {
  const [own = []] = cuts ?? [];
  if (own.length === 0) return undefined;
  const mortises = own.filter(({ kind }) => MORTISES.has(kind)).length;
  const what =
    mortises < own.length ? 'its joints' : mortises === 1 ? 'its mortise' : 'its mortises';
  return `cut ${what} while it is square`;
}

const MORTISES: ReadonlySet<string> = new Set(['mortise', 'angled mortise']);

function taperStep({ form, placing, cuts: joints }: Part, cuts: Cuts, format: Format): string {
  const faces = cuts.flatMap((cut) => (cut.kind === 'taper' ? cut.faces : []));
  const { to = 0, from = 0 } = form?.taper ?? {};
  const towards = placing?.turn[2] === 'L' ? 'top end' : 'wide end';
  const begins = from === 0 ? '' : `, beginning ${format(from)} from the ${towards}`;
  const mortised = new Set(
    (joints?.[0] ?? []).flatMap((cut) => (cut.kind === 'mortise' ? cut.face : [])),
  );
  const isSame = mortised.size === faces.length && faces.every((face) => mortised.has(face));
  const andSo = faces.length === 1 ? ', the one with its mortise,' : ', those with mortises,';
  return `taper ${taperedFaces(form?.taper?.faces, faces.length)}${isSame ? andSo : ''} to ${format(to)}${begins}`;
}

/** Faces that are tapered as the piece stands: `the two inside faces`. */
function taperedFaces(said: TaperFaces | undefined, count: number): string {
  const many = count === 1 ? 'face' : 'faces';
  if (said === 'four') return 'all four faces';
  if (said === 'inside' || said === 'outside') {
    return `the ${count === 2 ? 'two ' : ''}${said} ${many}`;
  }
  return `the ${listed([...(said ?? [])])} ${many}`;
}

type TaperFaces = NonNullable<NonNullable<Part['form']>['taper']>['faces'];

const EDGE_STEPS = {
  roundover: 'round over',
  chamfer: 'chamfer',
  cove: 'cut a cove along',
} as const;

function edgeStep({ form }: Part, format: Format): string {
  const { profile = 'roundover', at = [], size = 0 } = form?.edge ?? {};
  const where = at.length === 0 ? 'all edges' : `the edges around ${at.join(' and ')}`;
  return `${EDGE_STEPS[profile]} ${where}, ${format(size)}`;
}

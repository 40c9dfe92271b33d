/** Faces of a part as it stands, and as it looks at the middle of the piece of furniture. */
export const FACE_WORDS = [
  'top',
  'bottom',
  'front',
  'back',
  'left',
  'right',
  'inside',
  'outside',
] as const;

/** A face in a maker's words. */
export type FaceWord = (typeof FACE_WORDS)[number];

const ALSO: ReadonlyMap<string, FaceWord> = new Map([
  ['upper', 'top'],
  ['lower', 'bottom'],
  ['underside', 'bottom'],
  ['inner', 'inside'],
  ['outer', 'outside'],
]);

const KNOWN: ReadonlyMap<string, FaceWord> = new Map([
  ...FACE_WORDS.map((word) => [word, word] as const),
  ...ALSO,
]);

/** One face, or two for an edge: "inside", "back bottom"; undefined where the words name none. */
export function readFaces(text: string): readonly FaceWord[] | undefined {
  const words = text
    .toLowerCase()
    .split(/[\s,]+|\band\b/)
    .filter((word) => word !== '' && !/^(?:the|face|edge|end|side|of|and)$/.test(word));
  const faces = words.map((word) => KNOWN.get(word));
  if (faces.length === 0 || faces.length > 2) return undefined;
  return faces.every((face) => face !== undefined) ? (faces as FaceWord[]) : undefined;
}

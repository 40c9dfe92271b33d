/** What is built, in the words a maker sorts it by, and other words for it that are looked for. */
export interface Kind {
  readonly says: string;
  readonly words: string;
  /** Keys of the built-in templates of this kind, in the order they are shown. */
  readonly keys: readonly string[];
}

/** Shown in this order. */
export const KINDS: readonly Kind[] = [
  {
    says: 'Tables and desks',
    words: 'furniture dining kitchen living office',
    keys: ['dining-table', 'round-table', 'trestle-table', 'coffee-table', 'desk'],
  },
  { says: 'Seating', words: 'furniture seat hall entry', keys: ['bench'] },
  {
    says: 'Cabinets and shelves',
    words: 'furniture case casework shelf shelving bookshelf kitchen cupboard',
    keys: ['bookcase', 'plywood-cabinet'],
  },
  {
    says: 'Parts of a piece',
    words: 'component panel leg apron',
    keys: ['top', 'breadboard', 'base', 'cabinet-door'],
  },
  {
    says: 'For any work',
    words: 'calculator price estimate humidity expansion shrinkage',
    keys: ['cost', 'movement'],
  },
];

/** The kind of a built-in template; one that nobody sorted is for any work. */
export function kindOf(key: string): Kind {
  const kind = KINDS.find(({ keys }) => keys.includes(key)) ?? KINDS.at(-1);
  if (kind === undefined) throw new Error('there are no kinds');
  return kind;
}

/** What is of each kind, in the order of the kinds; a kind without any is left out. */
export function byKind<T extends { readonly key: string }>(
  all: readonly T[],
): readonly { readonly kind: Kind; readonly of: readonly T[] }[] {
  return KINDS.map((kind) => ({
    kind,
    of: all
      .filter(({ key }) => kindOf(key) === kind)
      .sort((a, b) => kind.keys.indexOf(a.key) - kind.keys.indexOf(b.key)),
  })).filter(({ of }) => of.length > 0);
}

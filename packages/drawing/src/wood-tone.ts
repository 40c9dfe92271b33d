/** Families of woods by how they look; `plain` is what is not known, sheet goods and metal among it. */
export type WoodTone =
  | 'pale'
  | 'straw'
  | 'green'
  | 'tan'
  | 'rose'
  | 'red'
  | 'brown'
  | 'dark'
  | 'plain';

/** `#rrggbb` on light paper and on a dark board. */
interface Ground {
  readonly light: string;
  readonly dark: string;
}

/** Muted, and ours: near enough to tell woods apart, far enough that lines stay in front. */
export const WOOD_TONES: Readonly<Record<WoodTone, Ground>> = {
  pale: { light: '#e2d2b0', dark: '#625a44' },
  straw: { light: '#dfc48a', dark: '#64552f' },
  green: { light: '#cdc99f', dark: '#5d5e3c' },
  tan: { light: '#cfb083', dark: '#6c5839' },
  rose: { light: '#d5ab90', dark: '#734f3e' },
  red: { light: '#c48c6b', dark: '#70452f' },
  brown: { light: '#b0957a', dark: '#5a4632' },
  dark: { light: '#a39282', dark: '#4b3e34' },
  plain: { light: '#cfcabf', dark: '#575954' },
};

/** Words of a material's name, the first that fits: "red oak" before "oak", "tulipwood" before none. */
const WORDS: readonly (readonly [RegExp, WoodTone])[] = [
  [/\b(mdf|hardboard|particleboard|chipboard|osb|melamine|laminate|steel|brass|glass)\b/, 'plain'],
  [/\b(red oak|oak[^a-z]+(northern |southern )?red|quercus rubra)\b/, 'rose'],
  [/\b(ebony|wenge|bog oak|blackwood|diospyros|millettia)\b/, 'dark'],
  [/\b(walnut|juglans|teak|tectona|iroko|butternut|koa)\b/, 'brown'],
  [
    /\b(cherry|mahogany|sapele|khaya|redwood|red ?cedar|jatoba|padauk|rosewood|bubinga|prunus|swietenia|sequoia|merbau|meranti)\b/,
    'red',
  ],
  [/\b(beech|alder|pear|pearwood|fagus|alnus|plum|eucalyptus)\b/, 'rose'],
  [/\b(yellow[- ]?poplar|tulip(wood|tree)?|liriodendron|poplar|magnolia)\b/, 'green'],
  [
    /\b(oak|quercus|elm|ulmus|chestnut|castanea|hickory|pecan|carya|locust|robinia|bamboo)\b/,
    'tan',
  ],
  [
    /\b(pine|pinus|fir|abies|douglas|pseudotsuga|spruce|picea|hemlock|tsuga|larch|larix|tamarack|cedar|cypress|yew|spf)\b/,
    'straw',
  ],
  [
    /\b(maple|acer|birch|betula|ash|fraxinus|basswood|linden|lime|tilia|aspen|cottonwood|populus|holly|hornbeam|sycamore|platanus|hackberry|willow)\b/,
    'pale',
  ],
];

const known = new Map<string, WoodTone>();
/** A workbook names a few materials; a thousand means that they are being typed. */
const MOST_KNOWN = 1000;

/** The tone of a material as a parts table names it: "Sugar maple", "Maple, sugar", "walnut 8/4". */
export function woodTone(material: string | undefined): WoodTone {
  if (material === undefined) return 'plain';
  let tone = known.get(material);
  if (tone === undefined) {
    const text = material.toLowerCase();
    tone = WORDS.find(([words]) => words.test(text))?.[1] ?? 'plain';
    if (known.size >= MOST_KNOWN) known.clear();
    known.set(material, tone);
  }
  return tone;
}

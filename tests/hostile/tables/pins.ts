import type { Scalar } from '@kerfbook/document';

/** What a sweep found: inputs that passed every check of the template while nobody could build them. */
export interface Pin {
  readonly what: string;
  /** The rule of the judge that refused it. */
  readonly kind: string;
  /** The template now gives another result, so that it can be built; of the others a check says so. */
  readonly mended?: true;
  /** The fewest inputs that differ from the template as it shipped. */
  readonly inputs: Readonly<Record<string, Scalar>>;
}

/** Each was found by a sweep and passed until a check of the template was made for it. */
export const PINS: readonly Pin[] = [
  {
    what: 'legs thinner than apron and set-back',
    kind: 'leg-thin',
    inputs: { apron_setback: 2.125 },
  },
  {
    what: 'aprons that run into each other inside a leg',
    kind: 'clash',
    inputs: { apron_setback: 3.125 },
  },
  { what: 'a tenon too short to hold', kind: 'tenon-short', inputs: { tenon_length: 0.4375 } },
  { what: 'tenons that meet', kind: 'tenons-meet', inputs: { tenon_length: 2.0625 } },
  { what: 'a tenon through its leg', kind: 'tenon-through', inputs: { tenon_length: 3.5625 } },
  { what: 'a groove below its apron', kind: 'groove-low', inputs: { groove_edge: 3.5 } },
  { what: 'a groove narrower than the blade', kind: 'groove-narrow', inputs: { kerf: 0.405 } },
  { what: 'a groove through its apron', kind: 'groove-deep', inputs: { groove_depth: 1.9125 } },
  { what: 'supports where the knees are', kind: 'knees', inputs: { support_width: 4.8125 } },
  {
    what: 'a thick fastener that leaves a screw nothing',
    kind: 'screw-short',
    inputs: { fastener_thickness: 0.875 },
  },
  {
    what: 'boards wider than was wanted, for what jointing takes',
    kind: 'board-wide',
    mended: true,
    inputs: { joint_loss: 0.3125 },
  },
  { what: 'a side that tips', kind: 'tips', inputs: { overhang_side: 9.4375 } },
  { what: 'aprons no board gives', kind: 'stock', inputs: { apron_thickness: 2.875 } },
  { what: 'an apron no pocket screw fits', kind: 'error', inputs: { apron_thickness: 1.75 } },
  {
    what: 'legs longer than their blank',
    kind: 'stock',
    inputs: { 'Leg blank: length': 18 },
  },
  {
    what: 'fewer leg blanks than legs',
    kind: 'stock',
    inputs: { 'Leg blank: at hand': 3 },
  },
  {
    what: 'a small table whose first fasteners are past the middle',
    kind: 'fasteners-meet',
    inputs: { top_width: 19.8125, species: 'yellow-poplar' },
  },
  {
    what: 'fasteners an eighth of an inch apart',
    kind: 'fasteners-meet',
    inputs: { top_length: 54, top_width: 36, leg_size: 4, overhang_end: 6, fastener_end: 11.9375 },
  },
  {
    what: 'a slot that breaks out of its apron',
    kind: 'slot-out',
    inputs: { fastener_long: 'slotted screw', slot_cut: 1.3125 },
  },
  {
    what: 'buttons wider than they are apart',
    kind: 'fasteners-beside',
    inputs: { tongue_width: 4, fastener_spacing: 4, fastener_end: 2.5 },
  },
  {
    what: 'a button that meets the leg',
    kind: 'fastener-leg',
    inputs: { fastener_end: 0.25, swivel_spacing: 1 },
  },
];

import type { CellDocument } from '@kerfbook/document';
import type { Look } from './flat-book.ts';

/** Colours of the light theme, without their `#`; those of the app's `tokens.css`. */
export const COLORS = {
  ink: '23211D',
  quiet: '6B655A',
  input: 'FFF5D1',
  inputEdge: '93804A',
  rule: 'D9D3C6',
} as const;

/** Grounds of cells by their names. */
export const GROUNDS = {
  sand: 'EFE2C6',
  clay: 'F8E3D8',
  slate: 'E0E8EE',
  ash: 'E6E6DF',
  plum: 'F0E2ED',
} as const;

/** How cells look whose check does not hold. */
export const MARKED = {
  care: { ground: 'F6E7C0', ink: '7D5600' },
  stop: { ground: 'F3D3CC', ink: 'A43A2A' },
} as const;

/** A font that every system has in this width. */
export const FONT = { name: 'Arial', size: 10, heading: 11 } as const;

/** Roles that have a style of their own. */
export const ROLES = ['input', 'calculated', 'heading', 'note'] as const;

/** What roles are called in the list of styles there. */
export const ROLE_NAMES = {
  input: 'Input of the maker',
  calculated: 'Worked out',
  heading: 'Heading of a part',
  note: 'Remark beside',
} as const;

/** The role that a style of a file of ours stands for. */
export const roleCalled = (name: string): NonNullable<CellDocument['role']> | undefined =>
  ROLES.find((role) => ROLE_NAMES[role] === name);

/** What a look with a number's format is known by: cells that have the same have the same key. */
export const lookKey = ({ role, style, isOverridden }: Look, format: string | undefined): string =>
  `${role ?? ''} ${isOverridden ?? ''} ${style === undefined ? '' : JSON.stringify(style)} ${format === undefined ? '' : `=${format}`}`;

/** A column whose width nobody set. */
export const DEFAULT_WIDTH_PX = 100;

const WIDE_PX = 760;

/** Whether a sheet is wider than a page at its natural size: it is printed with its long side across. */
export const isWide = (columns: readonly { width?: number; isHidden: boolean }[]): boolean =>
  columns.reduce((sum, { width = DEFAULT_WIDTH_PX, isHidden }) => sum + (isHidden ? 0 : width), 0) >
  WIDE_PX;

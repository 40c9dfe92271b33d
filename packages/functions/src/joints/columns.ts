/** The heads of a joints table. */
export const JOINT_COLUMNS = [
  'joint',
  'part',
  'into',
  'face',
  'thickness',
  'width',
  'length',
  'depth',
  'diameter',
  'from edge',
  'from end',
  'count',
] as const;

/** A head of the joints table, in small letters with single spaces. */
export type JointColumn = (typeof JOINT_COLUMNS)[number];

/** Those whose cells hold words. */
export const JOINT_WORD_COLUMNS = ['joint', 'part', 'into', 'face'] as const;

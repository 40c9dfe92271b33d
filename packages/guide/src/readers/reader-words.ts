/** The words of the readers' page that are its own, beside those of the guide in it. What stands in braces is filled in. */
export const READERS_WORDS = [
  'Your size',
  '{low} to {high}',
  'at least {low}',
  'at most {high}',
  'slide to change',
  'yes',
  'no',
  'Comes to',
  'Nothing warns at this size.',
  'One warning at this size',
  '{count} warnings at this size',
  'Units',
  'inches and pounds',
  'millimeters and kilograms',
  'Language',
  'Print',
  'Copy the link to this size',
  'The link is copied.',
  'Copy this link:',
  'Save the workbook',
  'Back to the size of the plan',
  'Opens in Kerfbook, set to this size.',
  'Nothing you enter here leaves this page.',
  'What you tick off is kept in this browser.',
  'This browser keeps nothing for this page: what you tick off is gone when you close it.',
  'Here is the plan at the size of its maker, all its steps in words and sizes, without their figures. In a newer browser, with JavaScript on, you see them too and can choose your own size.',
  'From the link this was not taken:',
  'This plan has nothing called “{name}” that can be changed.',
] as const;

/** One of them. */
export type ReadersWord = (typeof READERS_WORDS)[number];

/** One of them in the language of the page, filled in. */
export type SayWord = (word: ReadersWord, fills?: Readonly<Record<string, string>>) => string;

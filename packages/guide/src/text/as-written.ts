const LONG_NUMBER = /(?<![\d.,/])\d{4,}(?![\d/])/g;

/** A number as makers write it in a sentence: thousands are set apart, `1,685`. */
export const asMakersWrite = (text: string): string =>
  text.replace(LONG_NUMBER, (digits) => digits.replace(/\B(?=(?:\d{3})+$)/g, ','));

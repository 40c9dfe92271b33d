/** A formula that is not compiled, and what it comes to; where it is compiled one day, take another. */
export const LEFT_TO_OTHER = { formula: '=IMABS("3+4i")', number: 5 } as const;

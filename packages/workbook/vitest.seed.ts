import fc from 'fast-check';

// Random tests begin with one seed, so that a red run comes of a change and not of chance. With
// KERFBOOK_TIMES they take a new one each time, which is printed with what they find.
if (process.env.KERFBOOK_TIMES === undefined) fc.configureGlobal({ seed: 20_261_127 });

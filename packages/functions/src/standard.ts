import { type OfNumbers, ROUNDING } from './rounding-family.ts';
import * as steps from './steps.ts';

/** What the number of a call is, by what it is given. */
export type Gives =
  /** Nothing is told of it. */
  | 'any'
  /** Yes or no, words, a bare number: what it is given is only looked at. */
  | 'logical'
  | 'words'
  | 'count'
  /** A day, and a number of days. */
  | 'date'
  | 'days'
  /** A bare number made of numbers. */
  | 'bare'
  /** What all its numbers are; what the cells of its first argument are; what its first number is. */
  | 'all'
  | 'range'
  | 'first'
  /** What its first number is, which goes in steps of the second. */
  | 'step'
  /** One of its second and third; one of its first and second. */
  | 'if'
  | 'instead'
  /** The third where it is there, otherwise the first. */
  | 'chosen'
  | 'root'
  | 'square'
  | 'power'
  | 'product'
  | 'quotient';

/** A function of the open spreadsheet formats, as far as we have to know of it. */
export interface StandardFunction {
  /** In capitals, as it is typed. */
  readonly name: string;
  /** What its number is, by what it is given. */
  readonly gives: Gives;
  /** Several values may come of single ones. */
  readonly spills?: true;
  /** A part it needs is loaded after the first sheet is there. */
  readonly late?: true;
  /** Ours works it out, in the place of the engine's own. */
  readonly ours?: true;
  /** How ours works it out, where it is made of numbers alone. */
  readonly computes?: OfNumbers;
  /**
   * What it looks at besides values: where cells stand, how far sheets go (`shape`), or also how cells
   * are written and whether anything is there (`content`).
   */
  readonly looksAt?: 'shape' | 'content';
  /** What it costs beyond the cells it reads and makes, for each cell and once, told before it is worked out. */
  readonly weighs?: readonly [each: number, once: number];
  /** Steps it takes for its arguments, where these are more than reading them. */
  readonly steps?: steps.Steps;
}

const all = (names: string, about: Omit<StandardFunction, 'name'>): readonly StandardFunction[] =>
  names
    .trim()
    .split(/\s+/)
    .map((name) => ({ name, ...about }));

const one = (
  name: string,
  gives: Gives,
  about: Omit<StandardFunction, 'name' | 'gives'> = {},
): StandardFunction => ({ name, gives, ...about });

/** Of the rounding family, which is ours. */
const rounding = (gives: Gives, names: string): readonly StandardFunction[] =>
  names.split(' ').map((name) => {
    const computes = ROUNDING[name];
    return { name, gives, ours: true, ...(computes === undefined ? {} : { computes }) };
  });

const SERIES = [40, 2_000] as const;

/** Every function of the open spreadsheet formats that a formula may call. */
export const STANDARD: readonly StandardFunction[] = [
  ...all('SUM MIN MAX AVERAGE MEDIAN GEOMEAN STDEV STDEV.S STDEV.P STDEVS STDEVP', {
    gives: 'all',
  }),
  ...all('LARGE SMALL', { gives: 'range' }),
  ...all('ABS EVEN ODD N', { gives: 'first' }),
  ...rounding('first', 'ROUND ROUNDUP ROUNDDOWN INT TRUNC'),
  ...rounding('step', 'CEILING FLOOR MROUND CEILING.MATH FLOOR.MATH MOD'),
  ...rounding('any', 'CEILING.PRECISE ISO.CEILING FLOOR.PRECISE'),
  ...rounding('quotient', 'QUOTIENT'),
  ...all(
    'AND OR NOT XOR ISERROR ISERR ISNA ISBLANK ISNUMBER ISTEXT ISLOGICAL ISEVEN ISODD TRUE FALSE',
    { gives: 'logical' },
  ),
  one('TEXT', 'words', { late: true, ours: true }),
  ...all('CONCATENATE LEFT RIGHT MID CHAR', { gives: 'words' }),
  ...all('UPPER LOWER', { gives: 'words', steps: steps.texts }),
  one('TRIM', 'words', { steps: steps.trim }),
  one('SUBSTITUTE', 'words', { ours: true, steps: steps.substitute, weighs: [5, 100] }),
  one('REPT', 'words', { ours: true }),
  ...all('COUNT COUNTA LEN MATCH SIGN', { gives: 'count' }),
  ...all('COUNTIF COUNTIFS', { gives: 'count', steps: steps.criteria }),
  one('COUNTBLANK', 'count', { looksAt: 'content' }),
  ...all('ROWS COLUMNS ROW COLUMN', { gives: 'count', looksAt: 'shape' }),
  ...all('PI EXP LN LOG LOG10 SIN COS TAN ASIN ACOS ATAN ATAN2 RADIANS RAND FACT', {
    gives: 'bare',
  }),
  one('IF', 'if'),
  ...all('IFERROR IFNA', { gives: 'instead' }),
  one('SQRT', 'root'),
  one('SUMSQ', 'square'),
  one('POWER', 'power'),
  ...all('PRODUCT SUMPRODUCT', { gives: 'product' }),
  ...all('SUMIF AVERAGEIF', { gives: 'chosen', steps: steps.criteria }),
  ...all('SUMIFS MAXIFS MINIFS', { gives: 'any', steps: steps.criteria }),
  ...all('SHEET SHEETS', { gives: 'any', looksAt: 'shape', ours: true }),
  one('OFFSET', 'any', { looksAt: 'shape' }),
  one('FORMULATEXT', 'any', { looksAt: 'content', ours: true }),
  one('ISFORMULA', 'any', { looksAt: 'content', ours: true }),
  ...all('REPLACE FIND SEARCH PROPER CLEAN', { gives: 'any', steps: steps.texts }),
  one('TEXTJOIN', 'any', { steps: steps.join }),
  // Results that go over several cells.
  ...all('ARRAYFORMULA ARRAY_CONSTRAIN FILTER HSTACK TRANSPOSE VSTACK', {
    gives: 'any',
    spills: true,
  }),
  one('SEQUENCE', 'any', { spills: true, weighs: [1, 5_000] }),
  one('SORT', 'any', { spills: true, steps: steps.sort, weighs: [10, 0] }),
  one('UNIQUE', 'any', { spills: true, steps: steps.compared, weighs: [40, 0] }),
  one('MMULT', 'any', { spills: true, steps: steps.multiplied, weighs: [10, 5_000] }),
  one('MAXPOOL', 'any', { spills: true, steps: steps.pools(1 / 5), weighs: [10, 5_000] }),
  one('MEDIANPOOL', 'any', { spills: true, steps: steps.pools(7), weighs: [20, 5_000] }),
  // Those that go round as often as an argument says.
  ...all('POISSON.DIST POISSON POISSONDIST', {
    gives: 'any',
    steps: steps.poisson,
    weighs: SERIES,
  }),
  ...all('NEGBINOM.DIST NEGBINOMDIST', {
    gives: 'any',
    steps: steps.negativeBinomial,
    weighs: SERIES,
  }),
  ...all('HYPGEOM.DIST HYPGEOMDIST', { gives: 'any', steps: steps.drawn, weighs: SERIES }),
  ...all('BINOM.DIST BINOMDIST', { gives: 'any', steps: steps.binomial, weighs: SERIES }),
  ...all('BINOM.INV CRITBINOM', { gives: 'any', steps: steps.binomialInverse, weighs: SERIES }),
  ...all('BESSELI BESSELJ BESSELK BESSELY', {
    gives: 'any',
    steps: steps.times(10),
    weighs: SERIES,
  }),
  ...all('GAMMA.DIST CHISQ.DIST CHISQ.DIST.RT GAMMADIST CHIDIST CHIDISTRT', {
    gives: 'any',
    steps: steps.times(1),
    weighs: SERIES,
  }),
  ...all('GAMMA.INV GAMMAINV', { gives: 'any', steps: steps.times(5), weighs: SERIES }),
  ...all('CHISQ.INV CHISQ.INV.RT CHIINV CHIINVRT', {
    gives: 'any',
    steps: steps.times(3),
    weighs: SERIES,
  }),
  ...all('CUMIPMT CUMPRINC', { gives: 'any', steps: steps.periods, weighs: SERIES }),
  one('DB', 'any', { steps: steps.depreciation, weighs: [5, 200] }),
  one('COMBIN', 'any', { steps: steps.combinations, weighs: [5, 200] }),
  one('MULTINOMIAL', 'any', { steps: steps.multinomial, weighs: [5, 200] }),
  ...all('DATE DATEVALUE TODAY NOW EDATE EOMONTH', { gives: 'date' }),
  ...all('WORKDAY WORKDAY.INTL', { gives: 'date', steps: steps.days }),
  ...all('DAYS DAYS360 NETWORKDAYS NETWORKDAYS.INTL', { gives: 'days' }),
  one('IRR', 'any', { steps: steps.rates(100), weighs: [10, 0] }),
  one('XIRR', 'any', { steps: steps.rates(200), weighs: [20, 0] }),
  one('RATE', 'any', { steps: () => 40 }),
  ...all(
    'BETA.DIST F.DIST F.DIST.RT T.DIST T.DIST.2T T.DIST.RT TDIST BETADIST FDIST FDISTRT TDIST2T TDISTRT',
    {
      gives: 'any',
      steps: () => 20,
    },
  ),
  ...all('BETA.INV F.INV F.INV.RT T.INV T.INV.2T CONFIDENCE.T BETAINV FINV FINVRT TINV TINV2T', {
    gives: 'any',
    steps: () => 200,
  }),
  one('DCOUNT', 'any', { steps: steps.database }),
  // The engine works these out, and nothing more has to be known of them.
  ...all(
    `ACOSH ACOT ACOTH ADDRESS ARABIC ASINH ATANH AVEDEV AVERAGEA BASE BIN2DEC BIN2HEX BIN2OCT
    BITAND BITLSHIFT BITOR BITRSHIFT BITXOR CHISQ.TEST CHITEST CHOOSE CODE COMBINA COMPLEX
    CONFIDENCE CONFIDENCE.NORM CORREL COSH COT COTH COUNTUNIQUE COVAR COVARIANCE.P
    COVARIANCE.S COVARIANCEP COVARIANCES CSC CSCH DATEDIF DAVERAGE DAY 
    DCOUNTA DDB DEC2BIN DEC2HEX DEC2OCT DECIMAL DEGREES DELTA DEVSQ DGET DMAX DMIN
    DOLLARDE DOLLARFR DPRODUCT DSTDEV DSTDEVP DSUM DVAR DVARP EFFECT ERF ERFC
    EXACT EXPON.DIST EXPONDIST F.TEST FACTDOUBLE FISHER FISHERINV FTEST FV FVSCHEDULE GAMMA
    GAMMALN GAMMALN.PRECISE GAUSS GCD HARMEAN HEX2BIN HEX2DEC HEX2OCT HF.ADD HF.CONCAT
    HF.DIVIDE HF.EQ HF.GT HF.GTE HF.LT HF.LTE HF.MINUS HF.MULTIPLY HF.NE HF.POW HF.UMINUS
    HF.UNARY_PERCENT HF.UPLUS HLOOKUP HOUR HYPERLINK IFS IMABS IMAGINARY IMARGUMENT
    IMCONJUGATE IMCOS IMCOSH IMCOT IMCSC IMCSCH IMDIV IMEXP IMLN IMLOG10 IMLOG2 IMPOWER
    IMPRODUCT IMREAL IMSEC IMSECH IMSIN IMSINH IMSQRT IMSUB IMSUM IMTAN INDEX INTERVAL IPMT
    ISBINARY ISNONTEXT ISOWEEKNUM ISPMT ISREF LCM LOGINV LOGNORM.DIST LOGNORM.INV
    LOGNORMDIST LOGNORMINV MAXA MINA MINUTE MIRR MONTH NA 
    NOMINAL NORM.DIST NORM.INV NORM.S.DIST NORM.S.INV NORMDIST NORMINV NORMSDIST NORMSINV
    NPER NPV OCT2BIN OCT2DEC OCT2HEX PDURATION PEARSON PERCENTILE PERCENTILE.EXC
    PERCENTILE.INC PHI PMT PPMT PV QUARTILE QUARTILE.EXC QUARTILE.INC RANDBETWEEN ROMAN RRI
    RSQ SEC SECH SECOND SERIESSUM SINH SKEW SKEW.P SKEWP SLN SLOPE SPLIT SQRTPI STANDARDIZE
    STDEVA STDEVPA STEYX SUBTOTAL SUMX2MY2 SUMX2PY2 SUMXMY2 SWITCH SYD T T.TEST TANH TBILLEQ
    TBILLPRICE TBILLYIELD TIME TIMEVALUE TTEST UNICHAR UNICODE VALUE VAR VAR.P VAR.S
    VARA VARP VARPA VARS VERSION VLOOKUP WEEKDAY WEEKNUM WEIBULL WEIBULL.DIST WEIBULLDIST
    XLOOKUP XNPV YEAR YEARFRAC Z.TEST ZTEST`,
    { gives: 'any' },
  ),
];

import { writtenFunction } from '../flat/known-functions.ts';

const words = (text: string): readonly string[] => text.trim().split(/\s+/);

/** Functions that OpenDocument 1.3 part 4 has under a name of its maker, with the prefix that files write. */
const OF_A_MAKER = words(`
  BETA.DIST BETA.INV BINOM.DIST BINOM.INV CEILING CEILING.MATH CEILING.PRECISE CHISQ.DIST CHISQ.DIST.RT CHISQ.INV
  CHISQ.INV.RT CHISQ.TEST CONFIDENCE.NORM CONFIDENCE.T COVARIANCE.P COVARIANCE.S EXPON.DIST F.DIST F.DIST.RT F.INV
  F.INV.RT F.TEST FLOOR FLOOR.MATH FLOOR.PRECISE GAMMA.DIST GAMMA.INV GAMMALN.PRECISE HYPGEOM.DIST IFS LOGNORM.DIST
  LOGNORM.INV MAXIFS MINIFS NEGBINOM.DIST NETWORKDAYS.INTL NORM.DIST NORM.INV NORM.S.DIST NORM.S.INV PERCENTILE.EXC
  PERCENTILE.INC POISSON.DIST QUARTILE.EXC QUARTILE.INC STDEV.P STDEV.S SWITCH T.DIST T.DIST.2T T.DIST.RT T.INV
  T.INV.2T T.TEST TEXTJOIN VAR.P VAR.S WEIBULL.DIST WORKDAY.INTL XLOOKUP Z.TEST
`);

/** Functions that the standard keeps under their former meaning (part 4, 6.18: LEGACY). */
const FORMER = words('CHIDIST CHIINV CHITEST FDIST FINV NORMSDIST NORMSINV TDIST');

/** Functions that are called otherwise there. */
const CALLED: ReadonlyMap<string, string> = new Map([
  ...OF_A_MAKER.map((name) => [name, `COM.MICROSOFT.${name}`] as const),
  ...FORMER.map((name) => [name, `LEGACY.${name}`] as const),
  ['SKEW.P', 'SKEWP'],
]);

const OURS: ReadonlyMap<string, string> = new Map(
  [...CALLED].map(([name, there]) => [there, name]),
);
const PREFIX =
  /^(?:COM\.MICROSOFT|COM\.SUN\.STAR\.SHEET\.ADDIN|LEGACY|ORG\.OPENOFFICE|ORG\.LIBREOFFICE)\./;

/** How OpenFormula calls a function that means the same there; undefined where it does not know it. */
export const openFunction = (name: string): string | undefined =>
  writtenFunction(name) === undefined ? undefined : (CALLED.get(name) ?? name);

/** What a function of OpenFormula is called here, whether there is one or not. */
export function functionOf(there: string): string {
  const name = there.toUpperCase();
  return OURS.get(name) ?? name.replace(PREFIX, '');
}

/** What stands between arguments and in constant tables (part 4, 5.13). */
export const BETWEEN = { args: ';', cells: ';', rows: '|' } as const;

const PLAIN_SHEET = /^[\p{L}_][\p{L}\p{M}\p{Nd}_]*$/u;

/** An address as OpenFormula has it (part 4, 5.8): `'My parts'!$B$2:C9` is `[$'My parts'.$B$2:.C9]`. */
export function openAddress(written: string): string {
  return `[${cellRange(written)}]`;
}

/** The same as attributes that name cells have it, without brackets (part 3, 18.3.5). */
export function cellRange(written: string): string {
  const point = written.lastIndexOf('!');
  const sheet = point < 0 ? '' : `$${written.slice(0, point)}`;
  const [from = '', to] = written.slice(point + 1).split(':');
  return `${sheet}.${from}${to === undefined ? '' : `:.${to}`}`;
}

/** A sheet as such addresses have it. */
export const sheetThere = (name: string): string =>
  PLAIN_SHEET.test(name) ? name : `'${name.replaceAll("'", "''")}'`;

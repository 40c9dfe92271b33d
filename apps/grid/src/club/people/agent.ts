/** Systems by what browsers tell of themselves; the first that fits holds, since some name others as well. */
const SYSTEMS = [
  [/iPad/, 'an iPad'],
  [/iPhone/, 'an iPhone'],
  [/Android/, 'Android'],
  [/Windows/, 'Windows'],
  [/CrOS/, 'ChromeOS'],
  [/Mac OS X|Macintosh/, 'a Mac'],
  [/Linux/, 'Linux'],
] as const;

const BROWSERS = [
  [/Edg(?:e|A|iOS)?\//, 'Edge'],
  [/Firefox\/|FxiOS\//, 'Firefox'],
  [/Chrom(?:e|ium)\/|CriOS\//, 'Chrome'],
  [/Safari\//, 'Safari'],
] as const;

/** A browser as a person calls it, by what it tells of itself: `Firefox on Linux`. */
export function browserOf(agent: string): string {
  const browser = BROWSERS.find(([sign]) => sign.test(agent))?.[1] ?? 'A browser';
  const system = SYSTEMS.find(([sign]) => sign.test(agent))?.[1];
  return system === undefined ? browser : `${browser} on ${system}`;
}

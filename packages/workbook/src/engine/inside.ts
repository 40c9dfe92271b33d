/**
 * Looks whether what is used of HyperFormula beyond its public face is there.
 *
 * @throws an Error by name where another version of it is made differently inside
 */
export function demandInside(whole: object, paths: readonly string[], usedIn: string): void {
  for (const path of paths) {
    let part: unknown = whole;
    for (const step of path.split('.'))
      part = (part as Record<string, unknown> | undefined)?.[step];
    if (typeof part !== 'function') {
      throw new Error(`this version of HyperFormula has no ${path}: see ${usedIn}`);
    }
  }
}

import { hash, verify } from '@node-rs/argon2';
import { Refused } from '../refused.ts';
import { COMMON } from './common-passwords.ts';

/** Argon2id with 19 MiB, two passes, one lane: the least that OWASP's sheet on keeping passwords names. */
const HOW = { memoryCost: 19_456, timeCost: 2, parallelism: 1 } as const;

/** A hash of nothing anybody knows: looking up a name that is not there takes as long as one that is. */
let ofNobody: Promise<string> | undefined;

/** What is kept of a password. */
export const hashPassword = (password: string): Promise<string> => hash(password, HOW);

/** Whether it is the password; without one kept it takes as long and is not. */
export async function isPassword(kept: string | null, password: string): Promise<boolean> {
  ofNobody ??= hashPassword(crypto.randomUUID());
  const right = await verify(kept ?? (await ofNobody), password);
  return kept !== null && right;
}

/** Whether both are the same name to the club: case, width and accents written otherwise do not count. */
export const nameKey = (name: string): string =>
  name.normalize('NFKC').trim().replace(/\s+/g, ' ').toLowerCase();

/**
 * Refuses what anybody would try first (ASVS 5.0, 6.2.4): nothing else is asked of a password than its length.
 * @throws Refused
 */
export function refuseCommon(password: string, name: string): void {
  const plain = password.normalize('NFKC').toLowerCase();
  if (COMMON.has(plain) || plain === nameKey(name) || /^(.)\1*$/u.test(plain)) {
    throw new Refused(
      'notSo',
      'This password is among the first that anybody would try. Take another, such as three or four words that have nothing to do with each other.',
    );
  }
}

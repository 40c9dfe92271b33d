import { createHash, randomBytes } from 'node:crypto';

/** A secret of 256 bits, as it goes into a cookie, a link or a token (ASVS 5.0, 7.2.3). */
export const newSecret = (): string => randomBytes(32).toString('base64url');

/** What is kept of a secret: whoever reads the database cannot sign in with it. */
export const hashOf = (secret: string): string =>
  createHash('sha256').update(secret, 'utf8').digest('hex');

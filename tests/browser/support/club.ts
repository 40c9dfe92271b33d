import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { readSettings, startClub } from '@kerfbook/club';
import { BUILT } from '../../scripts/chromium.mjs';

/** A club's own server with the built app and nothing in it, on this machine alone. */
export interface ClubHere {
  /** As a browser on this machine types it. */
  readonly address: string;
  /** By which its first keeper comes in. */
  readonly link: string;
  /** The same club by an address that is no name and not this machine to a browser: without passkeys. */
  readonly byNumber: string;
  /** Stops it, and takes away all that it kept. */
  close(): Promise<void>;
}

/**
 * Starts a club in a folder of its own.
 * @param more settings beside those of every test
 */
export async function clubHere(
  name = 'The made-up club',
  more: Readonly<Record<string, string>> = {},
): Promise<ClubHere> {
  const folder = mkdtempSync(join(tmpdir(), 'kerfbook-club-'));
  const settings = readSettings({
    KERFBOOK_CLUB_FOLDER: folder,
    KERFBOOK_CLUB_NAME: name,
    KERFBOOK_CLUB_LISTEN: '127.0.0.1',
    PORT: '0',
    ...more,
  });
  const running = await startClub(settings, BUILT, false);
  const code = /#join=\S+/.exec(running.says.join('\n'))?.[0];
  if (code === undefined) throw new Error(`No link for a keeper in: ${running.says.join('\n')}`);
  const address = `http://localhost:${running.port}/`;
  return {
    address,
    // By this machine's own name, also where members would come by another.
    link: address + code,
    byNumber: `http://127.0.0.1:${running.port}/`,
    async close() {
      await running.close();
      rmSync(folder, { recursive: true });
    },
  };
}

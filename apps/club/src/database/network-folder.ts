import { readFile, statfs } from 'node:fs/promises';

/** A file system as the system tells of it. */
export interface Mount {
  /** Its type, as `nfs4`. */
  readonly type: string;
  /** What is mounted, as `server:/folder`. */
  readonly source: string;
}

/** First numbers of file systems that lie on another machine (statfs(2), linux/magic.h; SMB2 and Ceph from their sources). */
const KINDS: ReadonlyMap<number, string> = new Map([
  [0x6969, 'NFS'],
  [0x517b, 'SMB'],
  [0xff534d42, 'CIFS'],
  [0xfe534d42, 'SMB'],
  [0x01021997, '9P'],
  [0x5346414f, 'AFS'],
  [0x6b414653, 'AFS'],
  [0x73757245, 'Coda'],
  [0x564c, 'NCP'],
  [0x00c36400, 'Ceph'],
  [0x01161970, 'GFS2'],
  [0x7461636f, 'OCFS2'],
  [0x0bd00bd0, 'Lustre'],
]);
const FUSE = 0x65735546;

/** What kind of network file system a folder lies on; undefined where it lies on this machine. */
export function networkKind(magic: number, mount: Mount | undefined): string | undefined {
  // Some systems tell the number with a sign.
  const kind = KINDS.get(magic >>> 0);
  if (kind !== undefined) return kind;
  if (magic >>> 0 !== FUSE || mount === undefined) return undefined;
  // Behind FUSE may be anything: what has another machine in its name is there.
  const far = mount.type === 'fuse.sshfs' || /^(?:\/\/|[^/]+:)/.test(mount.source);
  return far ? mount.type : undefined;
}

/** Which mount a path lies on, of `/proc/self/mountinfo` (proc_pid_mountinfo(5)). */
export function mountOf(path: string, mountinfo: string): Mount | undefined {
  let best: (Mount & { readonly at: string }) | undefined;
  for (const line of mountinfo.split('\n')) {
    const [before, after] = line.split(' - ');
    const at = unescaped(before?.split(' ')[4] ?? '');
    const [type, source] = after?.split(' ') ?? [];
    if (at === '' || type === undefined || source === undefined) continue;
    const holds = path === at || path.startsWith(at.endsWith('/') ? at : `${at}/`);
    // Of two on the same place the later one is seen.
    if (holds && at.length >= (best?.at.length ?? 0))
      best = { at, type, source: unescaped(source) };
  }
  return best;
}

function unescaped(field: string): string {
  return field.replace(/\\([0-7]{3})/g, (_whole, digits: string) =>
    String.fromCharCode(Number.parseInt(digits, 8)),
  );
}

/**
 * Refuses a folder that lies on another machine: SQLite's locks and its shared memory do not reach over a network, and two
 * clubs that wrote at once would damage the file (sqlite.org/wal.html, "all processes … must be on the same host").
 * Known on Linux alone.
 * @throws Error with a sentence
 */
export async function refuseNetworkFolder(
  folder: string,
  look: (folder: string) => Promise<{ readonly type: number }> = statfs,
): Promise<void> {
  if (process.platform !== 'linux') return;
  const { type } = await look(folder);
  const mountinfo = await readFile('/proc/self/mountinfo', 'utf8').catch(() => '');
  const kind = networkKind(Number(type), mountOf(folder, mountinfo));
  if (kind === undefined) return;
  throw new Error(
    `The club's folder ${folder} lies on a network file system (${kind}), on which its database would be damaged. Choose a folder on this machine's own disk, or set DATABASE_URL to a PostgreSQL database.`,
  );
}

import { mkdtempSync, rmdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { mountOf, networkKind, refuseNetworkFolder } from './network-folder.ts';

const FUSE = 0x65735546;
const MOUNTS = `21 1 8:1 / / rw,relatime shared:1 - ext4 /dev/sda1 rw
22 21 0:5 / /srv/shop rw - nfs4 server:/export rw
23 21 0:6 / /mnt/my\\040shop rw - fuse.sshfs somebody@server:/shop rw
24 21 0:7 / /mnt rw - ext4 /dev/sdb1 rw
25 21 0:8 / /usb rw - fuseblk /dev/sdc1 rw
26 21 0:9 / /usb/far rw - fuse.far //server/share rw
`;

describe('the folder of the database', () => {
  it.each([
    ['NFS', 0x6969],
    ['CIFS', 0xff534d42],
    // As a system with 32 bits tells it.
    ['CIFS', 0xff534d42 | 0],
    ['SMB', 0xfe534d42],
    ['9P', 0x01021997],
  ])('is known to lie on %s', (kind, magic) => {
    expect(networkKind(magic, undefined)).toBe(kind);
  });

  it.each([
    ['ext4', 0xef53],
    ['xfs', 0x58465342],
    ['btrfs', 0x9123683e],
    ['memory', 0x01021994],
    ['overlay', 0x794c7630],
  ])('may lie on %s', (type, magic) => {
    expect(networkKind(magic, { type, source: 'server:/x' })).toBeUndefined();
  });

  it('behind FUSE is told by what is mounted there', () => {
    const kind = (path: string) => networkKind(FUSE, mountOf(path, MOUNTS));
    expect(kind('/mnt/my shop/club')).toBe('fuse.sshfs');
    expect(kind('/usb/far')).toBe('fuse.far');
    expect(kind('/usb/farther')).toBeUndefined();
    expect(kind('/usb')).toBeUndefined();
  });

  it('lies on the mount that goes deepest', () => {
    expect(mountOf('/srv/shop/club', MOUNTS)).toMatchObject({ type: 'nfs4' });
    expect(mountOf('/srv/shopping', MOUNTS)).toMatchObject({ type: 'ext4', source: '/dev/sda1' });
    expect(mountOf('/', MOUNTS)).toMatchObject({ source: '/dev/sda1' });
  });

  it.runIf(process.platform === 'linux')('is refused with a sentence there', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'kerfbook-club-'));
    await refuseNetworkFolder(folder);
    await expect(refuseNetworkFolder(folder, async () => ({ type: 0x6969 }))).rejects.toThrow(
      /^The club's folder .* lies on a network file system \(NFS\), .*\.$/,
    );
    rmdirSync(folder);
  });
});

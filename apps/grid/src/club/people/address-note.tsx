import type { Here } from '../here.ts';

/** What this address of the club cannot do, and what to do about it; nothing where it can do everything. */
export function AddressNote({ here }: { readonly here: Here }) {
  if (here.passkeys) return null;
  return (
    <p className="shelf-note">
      {here.secure
        ? 'At this address there are no passkeys, since they need a name in the place of numbers: open the club by its name.'
        : 'At this address there are no passkeys, and nothing works without a network: ask whoever runs the club for an address that begins with https.'}
    </p>
  );
}

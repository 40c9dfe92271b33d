/**
 * A club's server puts this sign into the page that it serves; where files are only handed out there is none, and
 * nobody is asked. It is read once: the page stays the one that was served.
 */
export const servedByClub =
  typeof document !== 'undefined' && document.querySelector('meta[name="kerfbook-club"]') !== null;

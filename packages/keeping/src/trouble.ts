/** Why something could not be written on this device, and what to do, in two short sentences. */
export function writeTrouble(error: unknown): string {
  switch (nameOf(error)) {
    case 'QuotaExceededError':
      return 'this device has no room left for it. Free some space, delete for good what is in the trash, or save a copy as a file.';
    case 'InvalidStateError':
      return 'the browser closed its storage. Save a copy as a file, then reload the page.';
    case 'SecurityError':
    case 'NotAllowedError':
      return 'the browser does not let this page store data. Save a copy as a file before you close it.';
    default:
      return `the browser could not write it (${nameOf(error)}). Save a copy as a file.`;
  }
}

/** The same for a browser that offers no storage at all, as some private windows do. */
export const NO_STORAGE =
  'this browser does not let the page store anything. Allow site data for this address and reload the page, or save a copy as a file before you close it.';

export const NEWER =
  'It was saved by a newer Kerfbook. Reload the page to get that one; nothing saved was changed.';

/** Another tab, of an app before this one, does not let go of what is kept. */
export class HeldByOlder extends Error {
  override readonly name = 'HeldByOlder';
}

/** Why a template does not open without a network. */
export const NO_TEMPLATE =
  'The template could not be read: it is not on this device yet. Try again when you are online.';

/** Nothing can be shown: no template arrived, and no workbook here can be opened. */
export class NothingToShow extends Error {
  override readonly name = 'NothingToShow';
}

/** `TypeError: x is not a function`: what to pass on to whoever looks into it. */
export function errorInWords(error: unknown): string {
  return error instanceof Error ? `${error.name}: ${error.message}`.slice(0, 200) : String(error);
}

/** Why a workbook that could be read was not opened. */
export const notWorkedOut = (error: unknown): string =>
  `It could not be worked out (${errorInWords(error)}).`;

export function nameOf(error: unknown): string {
  return error instanceof Error ? error.name : String(error);
}

/** Why something could not be written on this device, and what to do, in two short sentences. */
export function writeTrouble(error: unknown): string {
  switch (nameOf(error)) {
    case 'QuotaExceededError':
      return 'this device has no room left for it. Free some space, or keep a copy as a file.';
    case 'InvalidStateError':
      return 'the browser closed its storage. Keep a copy as a file, then reload the page.';
    case 'SecurityError':
    case 'NotAllowedError':
      return 'the browser does not let this page keep data. Keep a copy as a file before you close it.';
    default:
      return `the browser could not write it (${nameOf(error)}). Keep a copy as a file.`;
  }
}

/** The same for a browser that offers no storage at all, as some private windows do. */
export const NO_STORAGE =
  'this browser window lets pages keep nothing. Keep a copy as a file before you close it.';

function nameOf(error: unknown): string {
  return error instanceof Error ? error.name : String(error);
}

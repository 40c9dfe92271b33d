export const FILE_ENDING = '.kerfbook.json';

/** A file name any system takes: the title's letters and digits, joined by hyphens. */
export function fileNameFor(title: string): string {
  const plain = title
    .normalize('NFKD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60);
  return `${plain === '' ? 'workbook' : plain}${FILE_ENDING}`;
}

/** Hands a text to the maker as a download. */
export function download(fileName: string, text: string): void {
  const address = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = fileName;
  link.click();
  // Some browsers read the blob only after the click has been dealt with.
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

const FILE_ENDING = '.kerfbook.json';

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

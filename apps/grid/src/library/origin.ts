import type { Origin } from '@kerfbook/keeping';

/** Where a workbook came from, in words. */
export function originSentence(origin: Origin, templateTitle?: string): string {
  switch (origin.kind) {
    case 'template':
      return templateTitle === undefined
        ? 'From a template that ships'
        : `From the template "${templateTitle}"`;
    case 'own':
      return origin.from === '' ? 'Yours, begun empty' : `Yours, made from "${origin.from}"`;
    case 'file':
      return `From the file ${origin.file}`;
  }
}

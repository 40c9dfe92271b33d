import { isOwnTemplate, type Origin } from '@kerfbook/keeping';

/** Where a workbook came from, in words. */
export function originSentence(origin: Origin, templateTitle?: string): string {
  switch (origin.kind) {
    case 'template':
      return templateTitle === undefined
        ? 'From a built-in template'
        : `From the template "${templateTitle}"`;
    case 'own':
      if (origin.from === '') return 'Yours, started blank';
      return `${isOwnTemplate(origin) ? 'Your template' : 'Yours'}, made from "${origin.from}"`;
    case 'file':
      return `From the file ${origin.file}`;
    case 'link':
      return 'From a link';
  }
}

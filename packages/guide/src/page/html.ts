/** HTML that is safe to be put into a page: made by {@link html}, which escapes whatever it is given as text. */
export class Html {
  /** As it stands in the page. */
  readonly markup: string;

  constructor(markup: string) {
    this.markup = markup;
  }
}

/** What {@link html} takes between its parts; what is undefined is left out. */
export type Put = Html | string | number | undefined | readonly Put[];

/** Nothing. */
export const NOTHING = new Html('');

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text fit to stand in HTML, within an attribute too; what a page cannot hold becomes the replacement mark. */
export const escaped = (text: string): string =>
  text
    .replaceAll(/[&<>"']/g, (sign) => ENTITIES[sign] ?? '')
    .replaceAll(/[\u0000-\u0008\u000b-\u001f\u007f-\u009f\ufffe\uffff\ud800-\udfff]/gu, '\ufffd');

function markupOf(put: Put): string {
  if (put === undefined) return '';
  if (put instanceof Html) return put.markup;
  if (typeof put === 'string') return escaped(put);
  return typeof put === 'number' ? String(put) : put.map(markupOf).join('');
}

/** HTML with values in it, each escaped but for those that are HTML themselves. */
export const html = (parts: TemplateStringsArray, ...values: readonly Put[]): Html =>
  new Html(parts.map((part, i) => part + markupOf(values[i])).join(''));

/** A drawing of ours, whose makers escape the words in it themselves. */
export const drawn = (svg: string): Html => new Html(svg);

import { type Html, html } from './html.ts';
import type { Making } from './making.ts';

/**
 * Where the source of the program in a page for readers lies, an address that anyone can open. This is the one place in
 * which it is said; undefined as long as there is none that holds for everybody: then a page says from whom it is had.
 */
export const PROGRAM_SOURCE: string | undefined = undefined;

/** The foot of a page for readers: under which license the plan is, and under which the program in the page. */
export function programNote({ source, own }: Making, address = PROGRAM_SOURCE): readonly Html[] {
  const { licence } = source.head;
  return [
    html`<p>${
      licence === undefined
        ? own(
            'The maker of this plan has not said what others may do with it: ask before you pass it on.',
          )
        : own('The plan is under a license of its own, which its maker chose: {license}.', {
            license: licence,
          })
    }</p>`,
    html`<p>${own('The program in this page is not part of the plan. It is Kerfbook’s, free software under the GNU General Public License, version 3: under it anyone may use, study, change and pass it on.')} ${
      address === undefined
        ? own(
            'Its source is had from whoever gave you this page: it comes with the Kerfbook that the page was made with. Ask for it.',
          )
        : own('Its source: {source}', { source: address })
    }</p>`,
  ];
}

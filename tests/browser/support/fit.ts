import type { Locator, Page } from 'playwright-core';

/** Slack for rounding, px. */
const SLACK = 1.5;
/** What a finger needs, px (WCAG 2.2, 2.5.5). */
const FINGER = 44;

/** What a page of the app must not do at any size of the screen. */
export interface Unfit {
  /** Words cut off without an ellipsis, and nothing that scrolls to them. */
  readonly clipped: readonly string[];
  /** Words that lie over other words. */
  readonly overlapping: readonly string[];
  /** Controls outside the screen or under something else. */
  readonly unreachable: readonly string[];
  /** Controls smaller than a finger; empty where there is no touch. */
  readonly small: readonly string[];
}

/**
 * Looks at everything in sight, as it is laid out: words by the boxes of their letters, controls by what
 * a press in their middle hits.
 * @param touch whether controls must be large enough for a finger; links within a sentence need not (as in
 *   WCAG 2.2, 2.5.5)
 * @param region what lies over the page is looked at by itself; without it, the dialog on top or the page
 */
export function unfit(page: Page, touch: boolean, region?: Locator): Promise<Unfit> {
  return (region ?? page.locator('html')).evaluate(
    (only: Element, { slack, finger }) => {
      interface Words {
        readonly element: Element;
        readonly text: string;
        readonly box: DOMRect;
      }
      const over = [...document.querySelectorAll('dialog[open]')].at(-1) ?? document.body;
      const top = only === document.documentElement ? over : only;
      const clips = /hidden|clip/;
      const scrolls = /auto|scroll/;

      const isHidden = (element: Element): boolean => {
        if (!element.checkVisibility({ opacityProperty: true, visibilityProperty: true }))
          return true;
        if (element.closest('.visually-hidden, [inert]') !== null) return true;
        const { clipPath } = getComputedStyle(element);
        return clipPath.startsWith('inset(50%');
      };

      /** The part of a box that is seen through all that clips or scrolls it; undefined where none is. */
      const seen = (element: Element, box: DOMRect): DOMRect | undefined => {
        let [left, upper, right, lower] = [box.left, box.top, box.right, box.bottom];
        for (let one = element.parentElement; one !== null; one = one.parentElement) {
          const { overflowX, overflowY } = getComputedStyle(one);
          const frame = one.getBoundingClientRect();
          if (overflowX !== 'visible') {
            left = Math.max(left, frame.left);
            right = Math.min(right, frame.right);
          }
          if (overflowY !== 'visible') {
            upper = Math.max(upper, frame.top);
            lower = Math.min(lower, frame.bottom);
          }
        }
        if (right - left < 1 || lower - upper < 1) return undefined;
        return new DOMRect(left, upper, right - left, lower - upper);
      };

      const words: Words[] = [];
      const walker = document.createTreeWalker(top, NodeFilter.SHOW_TEXT);
      for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
        const text = node.textContent?.trim() ?? '';
        const element = node.parentElement;
        if (text === '' || element === null || isHidden(element)) continue;
        if (element.closest('option, title, desc, style, script') !== null) continue;
        const range = document.createRange();
        range.selectNodeContents(node);
        for (const box of range.getClientRects()) {
          if (box.width > 0 && box.height > 0) words.push({ element, text, box });
        }
      }
      const said = ({ text, box }: Words): string =>
        `"${text.slice(0, 50)}" at ${Math.round(box.left)}, ${Math.round(box.top)}`;

      /** Cut off at the right by something that neither scrolls nor shows an ellipsis. */
      const isClipped = ({ element, box }: Words): boolean => {
        let ellipsis = false;
        for (let one: Element | null = element; one !== null; one = one.parentElement) {
          const style = getComputedStyle(one);
          const frame = one.getBoundingClientRect();
          if (style.textOverflow !== 'clip' || style.webkitLineClamp !== 'none') ellipsis = true;
          if (scrolls.test(style.overflowX) || scrolls.test(style.overflowY)) return false;
          // What scrolls with the grid is cut at its edge, as at a window's.
          if (one.matches('.ag-root-wrapper, svg')) return false;
          const cut =
            (clips.test(style.overflowX) && box.right > frame.right + slack) ||
            (clips.test(style.overflowY) && box.bottom > frame.bottom + slack + 3);
          if (cut) return !ellipsis && box.left < frame.right && box.top < frame.bottom;
        }
        return box.right > innerWidth + slack;
      };

      const visible = words.flatMap((one) => {
        const box = seen(one.element, one.box);
        if (box === undefined) return [];
        const hit = document.elementFromPoint(box.left + box.width / 2, box.top + box.height / 2);
        const there = hit !== null && (one.element.contains(hit) || hit.contains(one.element));
        return there || one.element.closest('svg') !== null ? [{ ...one, box }] : [];
      });
      /** What opens over the page, as a list while one writes, on paper of its own: it hides what is under it. */
      const paperOf = (element: Element): Element | null => {
        for (let one: Element | null = element; one !== null; one = one.parentElement) {
          const { position, backgroundColor } = getComputedStyle(one);
          if (position === 'fixed' && /^rgb\(/.test(backgroundColor)) return one;
        }
        return null;
      };
      const overlapping: string[] = [];
      for (const [i, one] of visible.entries()) {
        for (const other of visible.slice(i + 1)) {
          if (one.element === other.element) continue;
          // Words of a cell that is scrolled lie under the numbers of the rows, which hide them.
          const numbers = [one, other].filter(
            ({ element }) => element.closest('[aria-colindex="1"]') !== null,
          );
          if (numbers.length === 1) continue;
          const across =
            Math.min(one.box.right, other.box.right) - Math.max(one.box.left, other.box.left);
          const down =
            Math.min(one.box.bottom, other.box.bottom) - Math.max(one.box.top, other.box.top);
          // The boxes of letters reach above and below them: a third may touch.
          const least = Math.min(one.box.height, other.box.height);
          if (
            across <= 2 ||
            down <= least * 0.4 ||
            paperOf(one.element) !== paperOf(other.element)
          ) {
            continue;
          }
          overlapping.push(`${said(one)} and ${said(other)}`);
        }
      }

      // What is taken hold of in the current cell is a control too; other cells have it once they are current.
      const HANDLES = '.ag-cell-focus > .pull-sign, .fill-handle, .select-handle';
      const CONTROLS =
        'button, input:not([type="hidden"]), select, textarea, summary, a[href], [role="option"], [role="separator"][tabindex]';
      const unreachable: string[] = [];
      const small: string[] = [];
      const scrolled = [...document.querySelectorAll('*')]
        .filter((one) => one.scrollHeight > one.clientHeight || one.scrollWidth > one.clientWidth)
        .map((one) => ({ one, left: one.scrollLeft, top: one.scrollTop }));
      for (const control of top.querySelectorAll<HTMLElement>(`${CONTROLS}, ${HANDLES}`)) {
        if (isHidden(control) || (control as HTMLButtonElement).hidden) continue;
        const label = control.closest('label');
        /** Whether a press so far from the middle of the control is one on it. */
        const hits = (across: number, down: number): boolean => {
          const { left, top: upper, width, height } = control.getBoundingClientRect();
          const hit = document.elementFromPoint(
            left + width / 2 + across,
            upper + height / 2 + down,
          );
          return (
            hit !== null &&
            (control.contains(hit) ||
              hit.closest('label')?.contains(control) === true ||
              hit === label)
          );
        };
        /** How far presses on it go from its middle in a direction. */
        const reach = (across: number, down: number): number => {
          let far = 0;
          while (far < finger && hits(across * (far + 1), down * (far + 1))) far += 1;
          return far;
        };
        control.scrollIntoView({ block: 'nearest', inline: 'nearest' });
        const box = control.getBoundingClientRect();
        if (box.width === 0 || box.height === 0) continue;
        const [x, y] = [box.left + box.width / 2, box.top + box.height / 2];
        const name = (
          control.getAttribute('aria-label') ??
          control.textContent?.trim() ??
          label?.textContent ??
          ''
        ).slice(0, 40);
        const where = `${control.tagName.toLowerCase()}.${control.className} "${name}" ${Math.round(x)}, ${Math.round(y)}`;
        if (!hits(0, 0)) {
          const hit = document.elementFromPoint(x, y);
          unreachable.push(`${where} is under ${hit?.tagName} ${String(hit?.className)}`);
        } else if (finger > 0 && control.closest('p > a') === null) {
          const enough = finger - 3;
          const roomy = (): boolean =>
            (box.width >= enough || reach(-1, 0) + reach(1, 0) >= enough) &&
            (box.height >= enough || reach(0, -1) + reach(0, 1) >= enough);
          // What is pressed of a box to tick is its whole line.
          const line = label?.getBoundingClientRect();
          const byLine = line !== undefined && line.width >= finger && line.height >= finger - 1;
          if (byLine || roomy()) continue;
          // At the edge of what scrolls, some of what is pressed may still be out of sight.
          control.scrollIntoView({ block: 'center', inline: 'center' });
          if (!roomy())
            small.push(`${where}: ${Math.round(box.width)} x ${Math.round(box.height)}`);
        }
      }
      const clipped = [
        ...new Set(words.filter((one) => seen(one.element, one.box) && isClipped(one)).map(said)),
      ];
      // Whoever looks again sees what was seen first.
      for (const { one, left, top: upper } of scrolled) {
        if (one.scrollLeft !== left) one.scrollLeft = left;
        if (one.scrollTop !== upper) one.scrollTop = upper;
      }
      return {
        clipped,
        overlapping,
        unreachable,
        small,
      };
    },
    { slack: SLACK, finger: touch ? FINGER : 0 },
  );
}

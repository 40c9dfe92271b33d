import './printing.css';

/** How long a page may take to be there and printed, ms: then it is taken out, whatever came of it. */
const AT_MOST = 120_000;

/**
 * Prints a page of its own: in a frame that nobody sees, which is gone once the printer has it.
 * @param title what it is, such as `The guide to print`
 */
export function printPage(html: string, title: string): void {
  const frame = document.createElement('iframe');
  frame.className = 'paper-printing';
  frame.title = title;
  frame.ariaHidden = 'true';
  const done = (): void => frame.remove();
  frame.addEventListener(
    'load',
    () => {
      const page = frame.contentWindow;
      if (page === null) return;
      page.addEventListener('afterprint', () => setTimeout(done));
      page.print();
    },
    { once: true },
  );
  setTimeout(done, AT_MOST);
  // A page within this one needs no exception from its policy: it may do less than this one.
  frame.srcdoc = html;
  document.body.append(frame);
}

/** What takes files, wherever they come from. */
type Take = (files: readonly File[]) => void;

let take: Take | undefined;

/** Files that the system opens with the app, where it is installed: Chromium's `launchQueue`. */
interface LaunchQueue {
  setConsumer(
    consumer: (launched: { readonly files?: readonly { getFile(): Promise<File> }[] }) => void,
  ): void;
}

/** From now on files come here; returns what ends it. */
export function takeComing(takes: Take): () => void {
  take = takes;
  const { launchQueue } = globalThis as { readonly launchQueue?: LaunchQueue };
  launchQueue?.setConsumer(({ files = [] }) => {
    if (files.length > 0) void Promise.all(files.map((one) => one.getFile())).then(comeWith);
  });
  return () => {
    if (take === takes) take = undefined;
  };
}

/** Hands files to whoever takes them. */
export const comeWith = (files: readonly File[]): void => take?.(files);

/** Rows of other cells as a file: whoever takes it reads it as one of rows with tabs between. */
export const asFile = (text: string): File => new File([text], 'Pasted cells.tsv');

/** Fewer rows are a few cells, not a sheet. */
const FEWEST_ROWS = 4;

/** Whether lines of cells are as many as those of a sheet. */
export const isSheet = (lines: readonly (readonly string[])[]): boolean =>
  lines.length >= FEWEST_ROWS && lines.some((line) => line.length >= 2);

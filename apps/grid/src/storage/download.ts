/** Hands a text, or bytes, to the maker as a download. */
export function download(
  fileName: string,
  content: string | Uint8Array<ArrayBuffer>,
  type = 'application/json',
): void {
  const address = URL.createObjectURL(new Blob([content], { type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = fileName;
  link.click();
  // Some browsers read the blob only after the click has been dealt with.
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

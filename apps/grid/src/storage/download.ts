/** Hands a text to the maker as a download. */
export function download(fileName: string, text: string, type = 'application/json'): void {
  const address = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = fileName;
  link.click();
  // Some browsers read the blob only after the click has been dealt with.
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

/** A random id for a workbook on this device: 96 bits, so two never meet. */
export function newBookId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(12));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

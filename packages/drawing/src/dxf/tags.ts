/** One pair of a DXF file: what kind of value it is, and the value as written. */
export type Tag = readonly [code: number, value: string];

/** Handles are counted in hexadecimal, each given once in a file. */
export class Handles {
  #next = 0x10;

  take(): string {
    const handle = this.#next.toString(16).toUpperCase();
    this.#next += 1;
    return handle;
  }

  /** The first handle not taken, as a header has to say. */
  get seed(): string {
    return this.#next.toString(16).toUpperCase();
  }
}

export const text = (code: number, value: string): Tag => [code, value];
export const whole = (code: number, value: number): Tag => [code, String(Math.round(value))];

/** Eight decimals: well below a nanometre in either unit. Never an exponent, which readers differ on. */
export const real = (code: number, value: number): Tag => {
  const written = value.toFixed(8).replace(/\.?0+$/, '');
  return [code, written === '-0' ? '0' : written];
};

export const point = (code: number, x: number, y: number): Tag[] => [
  real(code, x),
  real(code + 10, y),
  real(code + 20, 0),
];

/** Fit for a value: ASCII on one line; what is beyond as its number, as readers from 1999 on take it. */
export const plainText = (value: string): string =>
  value
    .replaceAll(/[\u0000-\u001f\u007f]/g, ' ')
    .replaceAll('%%', '% %')
    .replaceAll(/[\ud800-\udbff][\udc00-\udfff]|[\ud800-\udfff]/g, '?')
    .replaceAll(
      /[^\u0020-\u007e]/g,
      (sign) => `\\U+${sign.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}`,
    );

/** As above, where braces and backslashes would be taken for formatting. */
export const formattedText = (value: string): string =>
  plainText(value.replaceAll(/[\\{}]/g, (sign) => `\\${sign}`));

/** One line for the code and one for the value; lines end as the format's own examples do. */
export const written = (tags: readonly Tag[]): string =>
  tags.map(([code, value]) => `${String(code).padStart(3)}\r\n${value}\r\n`).join('');

export const section = (name: string, tags: readonly Tag[]): Tag[] => [
  text(0, 'SECTION'),
  text(2, name),
  ...tags,
  text(0, 'ENDSEC'),
];

/** The way round a circle of cells, with arrows between: as the sentence of the error writes it. */
export const circleText = (circle: readonly { readonly written: string }[]): string =>
  circle.map(({ written }) => written).join(' → ');

/**
 * Faces nearer to each other than this touch, mm: a tenth of a millimetre, finer than a saw is set. Common practice,
 * no source.
 */
export const TOLERANCE = 0.1;

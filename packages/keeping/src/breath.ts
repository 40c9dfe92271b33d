/** How long something is done before a key is heard and a frame drawn, in ms. */
export const STRETCH = 12;

/** Long enough for a frame to be drawn and a key to be heard. */
export const breath = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

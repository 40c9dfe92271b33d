/** The room that a drawing has on a page across, in mm. */
const ROOM = { width: 250, height: 170 } as const;

/** How far it stands from the sheet's corner, in mm. */
export const DRAWING_AT = 5;

/**
 * How large a drawing stands on its sheet, in mm: in its own shape, as large as a page across has room for.
 * @param width how wide it is, in whatever unit `height` is in; both above 0
 */
export function onItsSheet(
  width: number,
  height: number,
): { readonly width: number; readonly height: number } {
  const scale = Math.min(ROOM.width / width, ROOM.height / height);
  return { width: width * scale, height: height * scale };
}

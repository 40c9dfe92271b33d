/**
 * A drawing in dots, on a ground of its own.
 * @param svg the root of a drawing that stands by itself; it is given that size
 * @param width dots across
 * @param height dots down
 * @param ground a CSS colour
 * @returns undefined where this browser cannot make it
 */
export async function inDots(
  svg: Element,
  width: number,
  height: number,
  ground: string,
): Promise<HTMLCanvasElement | undefined> {
  svg.setAttribute('width', String(width));
  svg.setAttribute('height', String(height));
  const image = new Image();
  const text = new XMLSerializer().serializeToString(svg);
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(text)}`;
  try {
    await image.decode();
  } catch {
    return undefined;
  }
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = height;
  const pen = canvas.getContext('2d');
  if (pen === null) return undefined;
  pen.fillStyle = ground;
  pen.fillRect(0, 0, width, height);
  pen.drawImage(image, 0, 0, width, height);
  return canvas;
}

import type { Panel } from '@kerfbook/drawing';

const VIEW_BOX = /viewBox="([^"]+)"/;

/**
 * Pictures that are drawn at one scale, each in the frame of a panel, so that they are shown at one scale too:
 * a view with little written around it would else be shown larger than the one beside it. What is drawn stands in
 * the middle of its frame or, `low`, on its lower edge, where the captions of several are on one line.
 */
export function framed(svgs: readonly string[], panel: Panel, low: boolean): string[] {
  const boxes = svgs.map((svg) => (VIEW_BOX.exec(svg)?.[1] ?? '0 0 1 1').split(' ').map(Number));
  const unit = Math.max(
    ...boxes.map(([, , width = 1, height = 1]) =>
      Math.max(width / panel.width, height / panel.height),
    ),
  );
  const [across, down] = [panel.width * unit, panel.height * unit];
  return svgs.map((svg, i) => {
    const [left = 0, top = 0, width = 1, height = 1] = boxes[i] ?? [];
    const over = low ? down - height : (down - height) / 2;
    const box = [left - (across - width) / 2, top - over, across, down];
    return svg.replace(VIEW_BOX, `viewBox="${box.join(' ')}"`);
  });
}

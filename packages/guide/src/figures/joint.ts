import { type DetailPicture, detailPictures } from '@kerfbook/drawing';
import type { BuiltStep } from '../steps/built.ts';
import { plainText } from '../text/runs.ts';
import type { Figure } from './figure.ts';
import { measureLines } from './part-lines.ts';
import { FIGURE, n, Picture } from './picture.ts';
import type { Stage } from './stage.ts';

/** Room for which a detail is laid out, mm: its letters are 3.5 mm high in it, and it is then enlarged to the figure. */
const ROOM = { width: 112, height: 62 };
/** The same for one that is alone. */
const ALONE = { width: 112, height: 78 };
/** More of them would not go on a page with their step. */
const MOST = 2;

/** Joints cut open through their middle: the one that is asked for, or those of the parts that a step builds. */
export function jointFigure(stage: Stage, step: BuiltStep): Figure | string {
  const pictures = stage.details(() =>
    detailPictures(stage.plan.parts, {
      room: ROOM,
      units: stage.source.units,
      format: stage.format,
    }),
  );
  if (pictures.length === 0) {
    return 'its figure shows a joint, and the joints table has none that is made at this size. Add one there, or write another word under figure.';
  }
  const all = chosen(pictures, step);
  // One of those that are made alike tells it of all.
  const found = all.filter(({ alike }, i) => all.findIndex((one) => one.alike === alike) === i);
  const others = all.filter((one) => !found.includes(one)).map(({ title }) => partsOf(title));
  if (found.length === 0) {
    const of = step.figure.of === undefined ? 'of the parts it builds' : `like "${step.figure.of}"`;
    return `its figure shows a joint ${of}, and the joints table has none. Write the names of two parts, such as joint: Apron into Leg.`;
  }
  const picture = new Picture(stage.speak);
  const by = (FIGURE.wide - 2 * FIGURE.edge) / ROOM.width;
  const [first] = found;
  const shown =
    found.length === 1 && first !== undefined
      ? detailPictures(stage.plan.parts, {
          room: ALONE,
          units: stage.source.units,
          format: stage.format,
        }).filter(
          ({ row, title }) =>
            row === first.row && withoutScale(title) === withoutScale(first.title),
        )
      : found.slice(0, MOST);
  for (const { svg, width, height, title } of shown) {
    picture.beneath([withoutScale(title)], 'kb-label');
    const shrink = Math.min(by, (FIGURE.wide - 2 * FIGURE.edge) / width);
    const y = picture.bottom + 4;
    picture.add(
      placed(
        stage.spoken(svg),
        (FIGURE.wide - width * shrink) / 2,
        y,
        width * shrink,
        height * shrink,
      ),
      y + height * shrink,
    );
  }
  const more = found.length - shown.length;
  picture.beneath([
    ...(others.length === 0 ? [] : [`Made alike: ${others.join('; ')}`]),
    ...(more > 0 ? [`And ${more} more ${more === 1 ? 'joint' : 'joints'} of these parts.`] : []),
    ...measureLines(step),
  ]);
  return {
    svg: picture.svg(plainText(step.title), stage.options.print),
    says: shown.map(({ title, note }) => `${withoutScale(title)}. ${note}`).join(' '),
    caption: onceEach(shown.map(({ note }) => note)),
  };
}

/** Sentences of several details, each of them once. */
const onceEach = (notes: readonly string[]): string =>
  [...new Set(notes.flatMap((note) => note.split(/(?<=\.) (?=[A-Z0-9])/)))].join(' ');

/** Which details are meant: all words of the figure stand in their titles, or a part of the step does. */
function chosen(pictures: readonly DetailPicture[], step: BuiltStep): readonly DetailPicture[] {
  const has = (title: string, words: string): boolean =>
    title.toLowerCase().includes(words.trim().toLowerCase());
  const { of } = step.figure;
  if (of !== undefined) {
    const words = of.split(/\s+(?:into|and|to|with)\s+|,/i);
    return pictures.filter(({ title }) => words.every((one) => has(title, one)));
  }
  const own = pictures.filter(({ title }) => step.parts.some(({ name }) => has(title, name)));
  return step.parts.length === 0 ? pictures : own;
}

/** A detail's title ends with its scale on paper, which does not hold in a figure. */
const withoutScale = (title: string): string => title.replace(/, [^,]*$/, '');

/** `Leg and long apron` of `Leg and long apron: mortise and tenon, 1 : 2`. */
const partsOf = (title: string): string => title.replace(/: .*$/, '');

/** A picture of its own within a figure. */
export const placed = (svg: string, x: number, y: number, wide: number, high: number): string =>
  svg.replace(/^<svg ([^>]*)>/, (_, attributes: string) => {
    const own = attributes.replaceAll(/ ?(?:width|height|xmlns|role)="[^"]*"/g, '').trim();
    return `<svg x="${n(x)}" y="${n(y)}" width="${n(wide)}" height="${n(high)}" ${own}>`;
  });

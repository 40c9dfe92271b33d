import { type CellView, MONTHS, type OpenWorkbook } from '@kerfbook/workbook';

/** How wide a panel of solid wood is at one time of the year. */
export interface YearPoint {
  /** When: a month, a season, or the day it is built. */
  readonly says: string;
  /** How far it has moved since the day it was built, in the workbook's unit; less than nothing: it shrank. */
  readonly moved: number;
  /** How wide it is then, in the workbook's unit; undefined where the workbook does not say how wide it is built. */
  readonly wide: number | undefined;
}

/** How far the fasteners of one side have to travel, and can. */
export interface FastenerTravel {
  readonly says: string;
  readonly need: number;
  readonly reach: number;
}

/** A year of a panel. */
export interface PanelYear {
  /** By months where the workbook has them, else by its dry and its humid season. */
  readonly by: 'months' | 'seasons';
  /** In the order of the year; of seasons with the day it is built between them. */
  readonly points: readonly YearPoint[];
  /** A cell whose numbers are such lengths: how they are written. */
  readonly like: CellView;
  /** What the panel is called beside its width: `Width of the top`. */
  readonly panel: string | undefined;
  readonly fasteners: readonly FastenerTravel[];
}

/** What is read of an open workbook. */
export type YearSource = Pick<OpenWorkbook, 'named' | 'labelOf'>;

/** What workbooks call the width that moves, from the day it is built. */
const WIDTHS = ['top_width', 'top_diameter', 'seat_width', 'panel_width'] as const;

const SIDES = [
  ['Long aprons', 'fastener_need_long', 'fastener_reach_long'],
  ['Short aprons', 'fastener_need_short', 'fastener_reach_short'],
] as const;

/** The year of a workbook's panel; undefined where nothing says how it moves. */
export function panelYear(source: YearSource): PanelYear | undefined {
  const width = WIDTHS.map((name) => source.named(name)).find(
    (cell) => numberIn(cell) !== undefined,
  );
  const built = numberIn(width);
  const point = (says: string, moved: number): YearPoint => ({
    says,
    moved,
    wide: built === undefined ? undefined : built + moved,
  });
  const panel = width === undefined ? undefined : source.labelOf(width.at) || width.name;
  const fasteners = SIDES.flatMap(([says, needs, reaches]): FastenerTravel[] => {
    const [need, reach] = [numberIn(source.named(needs)), numberIn(source.named(reaches))];
    return need === undefined || reach === undefined ? [] : [{ says, need, reach }];
  });
  const months = MONTHS.flatMap(([month]) => {
    const moved = numberIn(source.named(`moved_${month.toLowerCase()}`));
    return moved === undefined ? [] : [point(month, moved)];
  });
  const january = source.named('moved_january');
  if (january !== undefined && months.length === MONTHS.length) {
    return { by: 'months', points: months, like: january, panel, fasteners };
  }
  const dry = source.named('movement_from_build_dry');
  const [shrunk, grown] = [numberIn(dry), numberIn(source.named('movement_from_build_humid'))];
  if (dry === undefined || shrunk === undefined || grown === undefined) return undefined;
  return {
    by: 'seasons',
    points: [point('Dry season', shrunk), point('As built', 0), point('Humid season', grown)],
    like: dry,
    panel,
    fasteners,
  };
}

function numberIn(cell: CellView | undefined): number | undefined {
  return cell?.value.kind === 'number' ? cell.value.number : undefined;
}

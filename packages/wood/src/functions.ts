import { AIR_FUNCTIONS } from './air.ts';
import { ANGLE_FUNCTIONS } from './angles.ts';
import { BASE_FUNCTIONS } from './base.ts';
import { BEAM_FUNCTIONS } from './beams.ts';
import { BREADBOARD_FUNCTIONS } from './breadboards.ts';
import { CURVE_FUNCTIONS } from './curves.ts';
import type { FunctionDescription } from './describe.ts';
import { DOVETAIL_FUNCTIONS } from './dovetails.ts';
import { DRAWER_FUNCTIONS } from './drawers.ts';
import { DRESSED_FUNCTIONS } from './dressed.ts';
import { FASTENING_FUNCTIONS } from './fastenings.ts';
import { FINISHING_FUNCTIONS } from './finishing.ts';
import { FRAME_FUNCTIONS } from './frames.ts';
import { HOLE_FUNCTIONS } from './holes.ts';
import { LAG_FUNCTIONS } from './lag.ts';
import { LENGTH_FUNCTIONS } from './lengths.ts';
import { LUMBER_FUNCTIONS } from './lumber.ts';
import { MOISTURE_FUNCTIONS } from './moisture.ts';
import { MORTISE_FUNCTIONS } from './mortises.ts';
import { OUTDOOR_FUNCTIONS } from './outdoor.ts';
import { PANEL_FUNCTIONS } from './panel.ts';
import { PRICING_FUNCTIONS } from './pricing.ts';
import { ROOM_FUNCTIONS } from './room.ts';
import { SAWN_FUNCTIONS } from './sawn.ts';
import { SCREW_FUNCTIONS } from './screws.ts';
import { SHEET_FUNCTIONS } from './sheets.ts';
import { WOOD_FUNCTIONS } from './species.ts';
import { STRENGTH_FUNCTIONS } from './strength.ts';
import { TIPPING_FUNCTIONS } from './tipping.ts';
import { TRAVEL_FUNCTIONS } from './travel.ts';

/** Every function a maker can type, in the order of the job. */
export const FUNCTIONS: readonly FunctionDescription[] = [
  ...LUMBER_FUNCTIONS,
  ...DRESSED_FUNCTIONS,
  ...SAWN_FUNCTIONS,
  ...PANEL_FUNCTIONS,
  ...WOOD_FUNCTIONS,
  ...MOISTURE_FUNCTIONS,
  ...AIR_FUNCTIONS,
  ...OUTDOOR_FUNCTIONS,
  ...ROOM_FUNCTIONS,
  ...LAG_FUNCTIONS,
  ...BASE_FUNCTIONS,
  ...FRAME_FUNCTIONS,
  ...MORTISE_FUNCTIONS,
  ...BREADBOARD_FUNCTIONS,
  ...DOVETAIL_FUNCTIONS,
  ...DRAWER_FUNCTIONS,
  ...SHEET_FUNCTIONS,
  ...FASTENING_FUNCTIONS,
  ...SCREW_FUNCTIONS,
  ...HOLE_FUNCTIONS,
  ...TRAVEL_FUNCTIONS,
  ...STRENGTH_FUNCTIONS,
  ...BEAM_FUNCTIONS,
  ...TIPPING_FUNCTIONS,
  ...ANGLE_FUNCTIONS,
  ...CURVE_FUNCTIONS,
  ...FINISHING_FUNCTIONS,
  ...PRICING_FUNCTIONS,
  ...LENGTH_FUNCTIONS,
];

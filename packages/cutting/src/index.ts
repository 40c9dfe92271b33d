export { CuttingFault } from './fault.ts';
export {
  type CutBoard,
  type LengthPart,
  type LengthPlan,
  type LengthRequest,
  type LengthStock,
  MOST_PIECES,
  planLengths,
} from './lengths.ts';
export { MOST_BOARDS, pickStaves, type StavesPicked } from './staves.ts';

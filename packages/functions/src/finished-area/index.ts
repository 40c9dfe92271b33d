export { HOLE_TOLERANCE, USUAL_APART } from '../joints/index.ts';
export {
  type AreaSum,
  type AreaTerm,
  areaNow,
  areaSum,
  type Share,
  type Stretch,
} from './area-sum.ts';
export type { TableCell, Tables } from './lengths.ts';

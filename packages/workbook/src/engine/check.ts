export { demandInside as checkEngine } from './inside.ts';

/** The workpiece in time: what the others ask of it. */
export { solidOfVolumes as workpieceSolid } from '../../geometry/solid';
export { boxLeft, type Cross, crossOf, isMaterial } from './left';
export { excessOver, stockBody, stockOf } from './stock';
export { cutsOf, lessOf, timelineOf } from './timeline';
export type * from './types';

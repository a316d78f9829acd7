/** The workpiece in time: what the others ask of it. */
export { boxLeft, crossOf, isMaterial } from './in-process-stock';
export { excessOver, overFace, stockOf } from './stock';
export { cutsOf, lessOf, timelineOf } from './timeline';
export type * from './types';

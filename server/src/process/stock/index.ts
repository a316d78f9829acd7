/** The workpiece in time: what the others ask of it. */
export { boxLeft, crossOf, isMaterial } from './in-process-stock';
export { excessOver, overFace, stockBody, stockOf } from './stock';
export { cutsOf, lessOf, timelineOf } from './timeline';
export type * from './types';

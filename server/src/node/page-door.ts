/** All that few runs need of pages, drawings and comparisons: found in the file of the thread beside, which is loaded when it is asked for. */
export { comparedJobs, comparedWith } from '../compare/with';
export { changedFaces, comparedPage, isWhole, pairOf } from '../page/compared';
export { partPage, sizeNote } from '../page/part';
export { viewsSvg } from '../page/views';
export { allSafeOfJob, jointFixes } from '../rules/joint-fixes';
export { compareAnswer } from '../service/compare';
export { shapesOf } from '../service/view/compared';
export { drawingWriters } from '../sheet/drawing/printed';
export { pageKit } from './page-kit';

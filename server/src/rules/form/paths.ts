/** The paths of a feature: outlines, islands and centre lines, each with where it is written. */
import type { Feature, PathCorner, Shape } from '../../model/model';
import type { Span } from '../../text/tree';

export interface WrittenPath {
  readonly corners: readonly PathCorner[];
  readonly closed: boolean;
  readonly span: Span;
}

export function pathsOf(feature: Feature): readonly WrittenPath[] {
  switch (feature.kind) {
    case 'pocket':
      return [feature.shape, ...feature.islands.map((i) => i.shape)].flatMap(closed);
    case 'contour':
      return feature.shapes.flatMap(closed);
    case 'slot':
      return [{ corners: feature.line, closed: false, span: feature.line[0]?.span ?? feature.nameSpan }];
    default:
      return [];
  }
}

function closed(shape: Shape): WrittenPath[] {
  return shape.type === 'path' ? [{ corners: shape.corners, closed: true, span: shape.span }] : [];
}

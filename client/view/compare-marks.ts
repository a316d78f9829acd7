/** Where a change is on the part: the middle of what its features have there. */
import type { ComparedPicture, PartPicture, PictureChange, Side } from '../../server/src/service/view/protocol';
import { arraysOf, surfacesOf } from './decode';
import type { Point } from './orbit';

/** In the part that is shown, else in the other; nothing for what is nowhere. */
export function placeOf(compared: ComparedPicture, change: PictureChange, shown: Side | 'both'): Point | undefined {
  const order: readonly Side[] = shown === 'before' ? ['before', 'after'] : ['after', 'before'];
  for (const side of order) {
    const picture = compared[side];
    const place = picture && middleOfFeatures(picture, change[side]);
    if (place) return place;
  }
  return undefined;
}

/** The corner of theirs that is nearest to the middle of all: a place on the part, not in the air inside a hole. */
function middleOfFeatures(picture: PartPicture, names: readonly string[]): Point | undefined {
  const wanted = new Set(names.flatMap((name) => [...surfacesOf(picture.surfaces, name)]));
  if (wanted.size === 0) return undefined;
  const { positions, triangles, surfaceOf } = arraysOf(picture.mesh);
  const corners: Point[] = [];
  for (let t = 0; t < surfaceOf.length; t++) {
    if (!wanted.has(surfaceOf[t]!)) continue;
    const at = 3 * triangles[3 * t]!;
    corners.push([positions[at]!, positions[at + 1]!, positions[at + 2]!]);
  }
  const mean = [0, 1, 2].map((i) => corners.reduce((sum, c) => sum + c[i]!, 0) / corners.length);
  const far = (c: Point) => Math.hypot(...c.map((x, i) => x - mean[i]!));
  return corners.reduce<Point | undefined>((best, c) => (best && far(best) <= far(c) ? best : c), undefined);
}

/** Datums on page 1: the triangle on the line that a face is, or on a feature's rim; the letter where there is room. */
import type { Drawn } from '../../export/flat/lines';
import type { Point2, Solid } from '../../geometry/types';
import { readMemberName } from '../../model/member-name';
import { FACES, type Part } from '../../model/model';
import { DATUM_BOX, datumBox, TRIANGLE, triangle } from '../draw/datum';
import { type Mark, moved } from '../draw/marks';
import type { Placer } from '../draw/placer';
import { polyline } from '../draw/shapes';
import { spotsIn } from './measures';
import { onPage, type Place } from './projected';
import { OUT, sideOf } from './side-of';

interface Placed {
  readonly drawn: Drawn;
  readonly place: Place;
}

/** Along a face's line, and from the triangle to the letter's frame. */
const ALONG = [0.5, 0.3, 0.7, 0.15, 0.85] as const;
const STEMS = [1.4, 4, 8] as const;
const DIRECTIONS = 16;

interface Foot {
  readonly at: Point2;
  readonly out: Point2;
}

/** Those that find no room stand in the notes only. */
export function datumMarks(placed: readonly Placed[], part: Part, solid: Solid, placer: Placer): Mark[] {
  return [...part.datums.values()].flatMap(({ letter, target }) => {
    for (const stem of STEMS)
      for (const one of placed)
        for (const foot of feetOf(target.name, one, part, solid)) {
          const marks = signAt(foot, stem, letter.name, placer);
          if (!marks) continue;
          placer.add(marks);
          return marks;
        }
    return [];
  });
}

function* feetOf(name: string, { drawn, place }: Placed, part: Part, solid: Solid): Generator<Foot> {
  const { view } = drawn;
  const feature = part.featureByName.get(readMemberName(name).feature);
  if (feature) {
    const [spot] = view.face === feature.face ? spotsIn(view, feature, solid) : [];
    if (!spot) return;
    const middle = onPage(place, spot);
    for (let k = 0; k < DIRECTIONS; k++) {
      const angle = (2 * Math.PI * k) / DIRECTIONS + Math.PI / 4;
      const out = { u: Math.cos(angle), v: Math.sin(angle) };
      const r = spot.r * place.scale;
      yield { at: { u: middle.u + out.u * r, v: middle.v + out.v * r }, out };
    }
    return;
  }
  const face = FACES.find((f) => f === name);
  const side = face && sideOf(face, view);
  if (!side) return;
  const lies = side === 'top' || side === 'bottom';
  for (const t of ALONG) {
    const [u, v] = lies
      ? [t * view.width, side === 'top' ? view.height : 0]
      : [side === 'right' ? view.width : 0, t * view.height];
    yield { at: onPage(place, { u, v }), out: OUT[side] };
  }
}

/** Undefined where something stands there. */
function signAt({ at, out }: Foot, stem: number, letter: string, placer: Placer): Mark[] | undefined {
  const half = DATUM_BOX / 2;
  const reach = half / Math.max(Math.abs(out.u), Math.abs(out.v));
  const far = TRIANGLE + stem;
  const [x, y] = [at.u + out.u * (far + reach) - half, at.v + out.v * (far + reach) - half];
  const box = { x0: x, y0: y, x1: x + DATUM_BOX, y1: y + DATUM_BOX };
  const line = polyline([
    [at.u + out.u * TRIANGLE, at.v + out.v * TRIANGLE],
    [at.u + out.u * far, at.v + out.v * far],
  ]);
  const foot = triangle(at.u, at.v, out.u, out.v);
  if (x < 0 || y < 0 || !placer.isFree(box) || placer.isSaid([...line.edges, ...foot.loops.flat()])) return undefined;
  return [foot, line, ...moved(datumBox(letter), x, y)];
}

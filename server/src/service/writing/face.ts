/** A feature moved to another face: at the same places there, along its two axes. */

import { type Otherwise, otherwise } from '../../model/everyday/otherwise';
import { type Axis, FACE_AXIS, FACE_PLANE, FACES, type Face } from '../../model/model';
import { entry, scalarAt } from '../../text/tree';
import { Draft, featureAt, type Rewriting, type Subject, spotAt } from './subject';

export function faceRewritings(subject: Subject): readonly Rewriting[] {
  const spot = spotAt(subject);
  const found = featureAt(subject, spot);
  if (!found) return [];
  const { name, map } = found;
  const on = FACES.find((f) => f === scalarAt(map, 'face')?.value);
  // What stands on another's floor or leans goes with that; an edge has two faces.
  if (!on || entry(map, 'from') || entry(map, 'tilt') || entry(map, 'edges') || entry(map, 'in')) return [];
  // Asked for at its name and at its face, not at each of its sizes.
  if (spot.path.length > 2 && spot.path[2] !== 'face') return [];
  return FACES.filter((to) => to !== on).map((to) => ({
    id: `to-${to}`,
    title: `Move ${name} to ${to}`,
    kind: 'refactor.move',
    keeps: 'others',
    of: [name, ...standingOn(subject, name)],
    make: () => new Draft(subject.tree).make(() => otherwise(map, onto(on, to))).text,
  }));
}

/** What starts on its floor, lies in it or breaks its rim is moved with it. */
function standingOn({ part }: Subject, name: string): readonly string[] {
  const found = part.features.filter(
    (f) =>
      f.from?.name === name || ('in' in f && (f.in as { name?: string } | undefined)?.name === name) || rims(f, name),
  );
  return found.flatMap((f) => [f.name, ...standingOn({ part } as Subject, f.name)]);
}

function rims(feature: object, name: string): boolean {
  return 'edges' in feature && JSON.stringify(feature.edges).includes(`"name":"${name}"`);
}

function onto(from: Face, to: Face): Otherwise {
  const axes = new Map<Axis, Axis>([
    [FACE_PLANE[from][0], FACE_PLANE[to][0]],
    [FACE_PLANE[from][1], FACE_PLANE[to][1]],
    [FACE_AXIS[from].axis, FACE_AXIS[to].axis],
  ]);
  const isTurned = FACE_AXIS[from].sign !== FACE_AXIS[to].sign;
  const axis = (a: Axis) => axes.get(a)!;
  const face = (f: Face) => {
    const { axis: was, sign } = FACE_AXIS[f];
    const is = was === FACE_AXIS[from].axis && isTurned ? -sign : sign;
    return FACES.find((g) => FACE_AXIS[g].axis === axis(was) && FACE_AXIS[g].sign === is)!;
  };
  return {
    face,
    axis,
    place: (a) => ({ key: axis(a), negated: false }),
    rotates: false,
    start: (deg) => deg,
    leans: () => false,
  };
}

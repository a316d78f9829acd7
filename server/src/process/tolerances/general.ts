/**
 * What a part's general tolerance comes to, dimension by dimension: ISO 2768-1 for sizes, broken edges and angles,
 * ISO 2768-2 for faces and how they stand to each other.
 */

import { memo } from '../../memo';
import { type ByForm, breaksEdges, ofForm } from '../../model/feature-kinds';
import type { Angle, Depth, Feature, Length, Part } from '../../model/model';
import { type Value, valuesOf } from '../../model/values';
import {
  type GeneralValue,
  generalAngle,
  generalGeometric,
  generalLinear,
  generalRadius,
  type LinearRule,
  parseGeneralTolerance,
} from '../../tables/general-tolerances';

export interface General extends GeneralValue {
  /** `hole.diameter`, `body.x`, `flatness of top`. */
  readonly what: string;
  /** The length or angle as written; absent for faces. */
  readonly of?: Length | Angle;
}

/** Every written dimension of the body or one feature that carries no tolerance of its own, in the order of its fields. */
export function generalsOf(of: Feature | NonNullable<Part['body']>, { tolerance }: Part): readonly General[] {
  return tolerance ? generalsBy(of, tolerance.name) : [];
}

const generalsBy = memo((of: Feature | NonNullable<Part['body']>, tolerance: string): readonly General[] => {
  const classes = parseGeneralTolerance(tolerance);
  if (!classes) return [];
  const name = 'kind' in of ? of.name : 'body';
  return valuesOf(of).flatMap((found): readonly General[] => {
    const key = found.path.map((p) => p.replace(/[A-Z]/g, (c) => `-${c.toLowerCase()}`)).join('.');
    const what = `${name}.${key.replace('depth.length', 'depth')}`;
    if (found.value.from !== undefined || NOT_A_SIZE.test(what)) return [];
    const general = generalOf(found, of, classes.linear);
    return general ? [{ ...general, what, of: found.value }] : [];
  });
});

function generalOf(
  found: Value,
  of: Feature | NonNullable<Part['body']>,
  linear: LinearRule,
): GeneralValue | undefined {
  const feature = 'kind' in of ? of : undefined;
  if (found.type === 'angle') {
    const leg = feature && shorterLeg(feature);
    return leg === undefined ? undefined : generalAngle(leg, linear);
  }
  if (found.value.tolerance) return undefined;
  return (feature && breaksEdges(feature) ? generalRadius : generalLinear)(
    Math.abs(found.value.mm),
    linear,
    found.value.text,
  );
}

/** Threads and drill points are their standard's; engraved letters are nobody's. */
const NOT_A_SIZE = /\.(point|thread-depth|stroke|height)(\.|$)/;

/** ISO 2768-1 goes by the shorter leg of an angle. Undefined where the angle is a cutter's own, or nothing tells its legs. */
function shorterLeg(feature: Feature): number | undefined {
  return ofForm(SHORTER_LEG, feature);
}

const leaning = ({ tilt, depth }: { readonly tilt?: object; readonly depth: Depth }) => (tilt ? depth.mm : undefined);
const SHORTER_LEG: ByForm<[], number | undefined> = {
  hole: leaning,
  opening: leaning,
  channel: leaning,
  shoulder: leaning,
  outside: leaning,
  letters: leaning,
  ring: () => undefined,
  slope: ({ widthMm, depthMm }) => Math.min(widthMm, depthMm),
  edge: (edge) => {
    if (edge.kind === 'edge-round') return undefined;
    const down = edge.size.mm * Math.tan((edge.angle.deg * Math.PI) / 180);
    return Math.min(edge.size.mm, Number.isFinite(down) ? down : edge.size.mm);
  },
};

/** Of the body's faces by ISO 2768-2: flatness by the longer side, perpendicularity and symmetry by the shorter leg. */
export function generalsOfFaces(part: Part): readonly General[] {
  const classes = part.tolerance && parseGeneralTolerance(part.tolerance.name);
  const { geometric } = classes ?? {};
  if (!geometric || part.body?.form !== 'box') return [];
  const [x, y, z] = part.size;
  const made: General[] = [];
  const add = (what: string, general: GeneralValue | undefined) => general && made.push({ ...general, what });
  for (const [faces, a, b] of [
    ['bottom and top', x, y],
    ['front and back', x, z],
    ['left and right', y, z],
  ] as const)
    add(`straightness and flatness of ${faces}`, generalGeometric('flatness', Math.max(a, b), geometric));
  for (const [faces, a, b] of [
    ['left to bottom', x, z],
    ['front to bottom', y, z],
    ['left to front', x, y],
  ] as const)
    add(`perpendicularity of ${faces}`, generalGeometric('perpendicularity', Math.min(a, b), geometric));
  add('symmetry', generalGeometric('symmetry', Math.min(x, y, z), geometric));
  add('run-out', generalGeometric('runout', Math.max(x, y), geometric));
  return made;
}

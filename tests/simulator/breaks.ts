/** Broken edges: chamfers and rounds of a face's outline, of one edge, of a feature's rim. */
import { FACE_AXIS, type Face, type Feature, OPPOSITE, type Part } from '../../server/src/model/model';
import { AXIS, axisOf, FAR, frameOn, planeOf, RAD, type Taken } from './frame';
import { type Distance, type Outline, ofShape, shifted } from './outline';

/** `takenBy`: what the feature takes whose rim is broken. */
export function broken(
  f: Feature & { kind: 'chamfer' | 'edge-round' },
  part: Part,
  takenBy: (f: Feature, part: Part) => readonly Taken[],
): readonly Taken[] {
  const along = f.kind === 'edge-round' ? f.radius.mm : f.size.mm;
  const down = f.kind === 'edge-round' ? along : f.size.mm * Math.tan(f.angle.deg * RAD);
  const set = (d: number) =>
    f.kind === 'edge-round'
      ? along - Math.sqrt(Math.max(0, along * along - (along - Math.min(d, along)) ** 2))
      : along * (1 - d / down);
  const base = { feature: f.name, sloped: true, most: along, what: 'edge' as const };
  const make = (face: Face, sd: Distance, outline: Omit<Outline, 'sd'>): Taken => ({
    ...base,
    member: 0,
    frame: frameOn(face, part, 0, 0),
    outline: { ...outline, sd },
    from: 0,
    to: down,
    grow: set,
    open: true,
  });
  return f.edges.flatMap((choice): readonly Taken[] => {
    if (choice.type === 'rim') {
      const owner = part.featureByName.get(choice.feature.name);
      if (!owner) return [];
      const all = takenBy(owner, part).filter((t) => t.what !== 'slope');
      const mouth = Math.min(...all.map((t) => t.from));
      return all
        .filter((t) => t.from <= mouth + 1e-9)
        .map((t) => {
          const start = Math.max(t.from, owner.startMm);
          const at = t.grow(start);
          return {
            ...t,
            ...base,
            from: start,
            to: start + down,
            grow: (d) => at + set(d - start),
            most: t.most + along,
          };
        });
    }
    const face = choice.type === 'face' ? choice.face : f.face;
    const [a, b] = planeOf(face);
    const [u0, v0, u1, v1] = cutBack(face, part);
    const kept = outlineOf(face, part);
    const sides: Distance[] = [];
    if (choice.type === 'edge') {
      const other = choice.faces[0] === face ? choice.faces[1] : choice.faces[0];
      const low = FACE_AXIS[other].sign < 0;
      if (axisOf(other) === a) sides.push(low ? (u) => u - u0 : (u) => u1 - u);
      else sides.push(low ? (_u, v) => v - v0 : (_u, v) => v1 - v);
    } else if (part.body?.form === 'round' && AXIS[part.body.axis] === axisOf(face)) {
      const [r, cu, cv] = [part.body.diameter.mm / 2, part.size[a] / 2, part.size[b] / 2];
      sides.push((u, v) => r - Math.hypot(u - cu, v - cv));
    } else {
      sides.push(
        (u) => u - u0,
        (u) => u1 - u,
        (_u, v) => v - v0,
        (_u, v) => v1 - v,
      );
      if (kept.length > 0) sides.push((u, v) => -Math.min(...kept.map((k) => k.sd(u, v))));
    }
    const sd: Distance = (u, v) => Math.min(...sides.map((s) => s(u, v)));
    const walls = { us: [u0, u1, u0 + along, u1 - along], vs: [v0, v1, v0 + along, v1 - along] };
    return [make(face, sd, { box: [-FAR, -FAR, FAR, FAR], centres: [], slanted: kept.length > 0, ...walls })];
  });
}

/** The face's rectangle less the steps that take a whole side of it. */
function cutBack(face: Face, part: Part): [number, number, number, number] {
  const [a, b] = planeOf(face);
  const box: [number, number, number, number] = [0, 0, part.size[a], part.size[b]];
  const move = (side: Face, by: number) => {
    const k = axisOf(side) === a ? 0 : 1;
    if (FACE_AXIS[side].sign < 0) box[k] = Math.max(box[k]!, by);
    else box[k + 2] = Math.min(box[k + 2]!, part.size[k === 0 ? a : b] - by);
  };
  for (const f of part.features) {
    if (f.kind !== 'step' || f.along.length !== 1 || f.startMm > 0) continue;
    const side = f.along[0]!.name;
    const width = f.widths[0]?.mm ?? 0;
    if (f.face === face || (f.depth.through && f.face === OPPOSITE[face])) move(side, width);
    else if (side === face) move(f.face, f.depth.mm);
  }
  return box;
}

function outlineOf(face: Face, part: Part): readonly Outline[] {
  return part.features.flatMap((f) => {
    if (f.kind !== 'contour' || f.startMm > 0) return [];
    if (f.face !== face && !(f.depth.through && f.face === OPPOSITE[face])) return [];
    const places = f.places.length > 0 ? f.places : [{ u: 0, v: 0 }];
    return places.flatMap((p) => f.shapes.map((s) => shifted(ofShape(s), p.u, p.v)));
  });
}

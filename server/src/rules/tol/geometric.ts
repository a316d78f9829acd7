/** tol/geometric – a face stays as the saw left it, where the general tolerance asks for flat and square faces. */

import type { Solid } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import { FACE_AXIS, FACE_PLANE, type Face, type Named } from '../../model/model';
import { leftBySaw, sawnFaces } from '../../model/sawn-off';
import { type GeometricClass, generalGeometric, parseGeneralTolerance } from '../../tables/general-tolerances';
import { HAIR, ROUNDING } from '../../tolerance';
import { change } from '../kit/changes';
import { defineRule } from '../kit/define';
import { list } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { asSetUp } from './as-set-up';

interface Rough {
  readonly face: Named & { readonly name: Face };
  readonly flatMm: number;
  readonly squareMm: number;
  readonly sawnMm: number;
}

/** Faces that nothing cuts after the saw, and what they are to be. */
function* rough(context: RuleContext): Generator<Rough> {
  const { part, solid } = context;
  const classes = part.tolerance && parseGeneralTolerance(part.tolerance.name);
  if (!classes?.geometric || part.body?.form !== 'box') return;
  const sawnMm = 2 * context.limitOf(asSetUp, 'sawn');
  const cut = new Set((part.setups ?? []).flatMap((s) => s.cuts.map((c) => c.name)));
  for (const face of sawnFaces(part)) {
    if (leftBySaw(face.name, part) > 0 || cut.has(face.name) || isCutAway(face.name, solid)) continue;
    const found = zonesOf(face.name, part.size, classes.geometric);
    if (found && sawnMm > Math.min(found.flatMm, found.squareMm) + ROUNDING) yield { face, ...found, sawnMm };
  }
}

function zonesOf(face: Face, size: readonly number[], of: GeometricClass) {
  const along = (axis: 'x' | 'y' | 'z') => size[AXIS_INDEX[axis]]!;
  const longer = Math.max(...FACE_PLANE[face].map(along));
  const flat = generalGeometric('flatness', longer, of);
  const square = generalGeometric('perpendicularity', Math.min(longer, along(FACE_AXIS[face].axis)), of);
  return flat && square && { flatMm: flat.value, squareMm: square.value };
}

/** Looked at so finely, to a side. */
const LOOKS = 9;

/** Outlines take the whole of it. */
function isCutAway(face: Face, solid: Solid): boolean {
  const { axis, sign } = FACE_AXIS[face];
  const i = AXIS_INDEX[axis];
  const [a, b] = FACE_PLANE[face].map((n) => AXIS_INDEX[n]) as [0 | 1 | 2, 0 | 1 | 2];
  const { min, max } = solid.body.box;
  for (let k = 0; k < LOOKS * LOOKS; k++) {
    const p: [number, number, number] = [0, 0, 0];
    p[i] = sign > 0 ? max[i] - HAIR : min[i] + HAIR;
    p[a] = min[a] + ((max[a] - min[a]) * ((k % LOOKS) + 0.5)) / LOOKS;
    p[b] = min[b] + ((max[b] - min[b]) * (Math.floor(k / LOOKS) + 0.5)) / LOOKS;
    if (solid.isMaterial(p)) return false;
  }
  return true;
}

const sample = (extra: string) => `part: ballast
material: aluminium-6061-t6
tolerance: ISO 2768-mK
body: { x: 60, y: 40, z: 20 }
stock: { form: flat-bar, sawn: [left, right]${extra} }
features:
  tie: { kind: hole, face: top, at: { x: center, y: center }, diameter: 6, depth: through }
`;

export const geometric: Rule = defineRule({
  name: 'tol/geometric',
  severity: 'warning',
  summary: 'A face stays sawn where the general tolerance needs flat and square faces.',
  why: 'H, K or L behind a general tolerance means flat and square faces, by ISO 2768-2. That part of the standard was withdrawn in 2021 (ISO 22081 in its place, from memory), but drawings still cite it. A mill holds it easily; a saw does not.',
  formula:
    'For a sawn face that has no stock on it and that no set-up cuts. The error of a saw, twice the `sawn` of tol/as-set-up, is compared with ISO 2768-2, tables 1 and 2. These are flatness by the longer side of the face and perpendicularity by the shorter leg.',
  bounds: 'The zones of ISO 2768-2, tables 1 and 2, and `sawn` of tol/as-set-up.',
  limits: [],
  bad: sample(''),
  good: sample(', extra: { left: 2, right: 2 }'),
  mends: 'Use the class without its letter for faces, or leave stock on the face and cut it.',
  *find(context) {
    const faces = [...rough(context)];
    const general = context.part.tolerance;
    if (faces[0] && general) yield { faces, first: faces[0], general };
  },
  tell: ({ faces, first: { face, flatMm, squareMm, sawnMm }, general }, { length }) => ({
    message: `The ${list(faces.map((r) => r.face.name))} face${faces.length > 1 ? 's are' : ' is'} sawn, to ${length(sawnMm)}, and not cut. ${general.name} needs flat to ${length(flatMm)}, square to ${length(squareMm)} (ISO 2768-2, withdrawn 2021). Leave stock and face ${faces.length > 1 ? 'them' : 'it'}.`,
    has: length(sawnMm),
    needs: length(flatMm),
    of: faces.map((r) => r.face.name),
    span: face.span,
    related: [{ span: general.span, message: 'the general tolerance' }],
    facts: { faces: faces.length, flat_mm: flatMm, square_mm: squareMm, sawn_mm: sawnMm },
  }),
  keep: ({ general }) => ({ span: general.span, newText: `ISO 2768-${parseGeneralTolerance(general.name)?.linear}` }),
  mend: (edit) => [change(`Use ${edit.newText}, which has nothing on faces`, edit)],
});

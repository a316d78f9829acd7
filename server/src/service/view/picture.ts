/** A part as the view shows it: the mesh with named faces, and what the text and the rules say of it. */
import type { Vec3, Void } from '../../geometry/types';
import type { Finding } from '../../rules/rule';
import type { Part } from '../../spec/model';
import { stockSizeMm } from '../../spec/stock';
import { formatLength } from '../../text/format';
import { rangeOf } from '../lsp';
import type { PartSnapshot } from '../workspace';
import { labelOf } from './labels';
import type { MadeMesh, MeshSurface } from './mesh-maker';
import { surfaceName } from './names';
import type { PartPicture, PictureFinding, PictureSetup, Surface } from './protocol';
import { summaryOf } from './summary';

export function pictureOf(snapshot: PartSnapshot, version: number, made: MadeMesh): PartPicture {
  const { part, solid } = snapshot.checked;
  return {
    uri: snapshot.path,
    version,
    name: part.name,
    units: part.units,
    mesh: made.mesh,
    surfaces: namedSurfaces(made.surfaces, solid.voids, part),
    features: part.features.map((f) => ({
      name: f.name,
      kind: f.kind,
      range: rangeOf(snapshot, f.span),
      nameRange: rangeOf(snapshot, f.nameSpan),
    })),
    findings: snapshot.findings.map((f) => shownFinding(snapshot, f, part)),
    setups: (part.setups ?? []).map(
      (s): PictureSetup => ({
        name: s.name,
        ...(s.up ? { up: s.up.name } : {}),
        cuts: s.cuts.map((c) => c.name),
        range: rangeOf(snapshot, s.whole),
      }),
    ),
    body: solid.body.box,
    stock: stockOf(part),
    summary: summaryOf(snapshot),
  };
}

/** The surfaces of a mesh as the view knows them; `voids` is the list that the mesh was made from. */
export function namedSurfaces(surfaces: readonly MeshSurface[], voids: readonly Void[], part: Part): Surface[] {
  const members = new Map<string, Void[]>();
  const keyOf = (v: Void) => `${v.feature} ${v.member}`;
  for (const v of voids) {
    const known = members.get(keyOf(v));
    if (known) known.push(v);
    else members.set(keyOf(v), [v]);
  }
  return surfaces.map((s): Surface => {
    const of = s.of === undefined ? undefined : voids[s.of];
    return {
      ...(of ? { feature: of.feature } : {}),
      member: of?.member ?? 0,
      name: surfaceName(s, of, part, of ? members.get(keyOf(of))! : []),
      shape: shapeOf(s),
    };
  });
}

function shapeOf({ shape }: MeshSurface): Surface['shape'] {
  switch (shape.type) {
    case 'plane':
      return shape;
    case 'cylinder':
      return { type: 'cylinder', axis: shape.axis, through: shape.through, radiusMm: shape.radiusMm };
    case 'cone':
      return { type: 'cone', axis: shape.axis, apex: shape.apex, halfAngleDeg: shape.halfAngleDeg };
    case 'ring':
      return { type: 'free' };
  }
}

function shownFinding(snapshot: PartSnapshot, finding: Finding, part: Part): PictureFinding {
  const label = labelOf(finding, (mm) => formatLength(mm, part.units));
  return {
    rule: finding.rule,
    severity: finding.severity,
    message: finding.message,
    of: finding.of,
    range: rangeOf(snapshot, finding.span),
    at: finding.at ?? [],
    ...(label === undefined ? {} : { label }),
  };
}

const FACES = [
  ['left', 'right'],
  ['front', 'back'],
  ['bottom', 'top'],
] as const;

/** The bar before anything is cut, in part axes: the body and what is left over it on each face. */
function stockOf(part: Part): PartPicture['stock'] {
  const { stock, size } = part;
  const over = (a: 0 | 1 | 2, end: 0 | 1) => stock.extra[FACES[a][end]]?.mm ?? 0;
  const min: [number, number, number] = [-over(0, 0), -over(1, 0), -over(2, 0)];
  const max: [number, number, number] = [size[0] + over(0, 1), size[1] + over(1, 1), size[2] + over(2, 1)];
  if (stock.form !== 'round-bar' || !stock.diameter) return { min, max };
  const radiusMm = stock.diameter.mm / 2;
  const axis = ({ x: 0, y: 1, z: 2 } as const)[stock.axis ?? (part.body?.form === 'round' ? part.body.axis : 'z')];
  const dims = stockSizeMm(part);
  for (const a of [0, 1, 2] as const) {
    if (a === axis) continue;
    min[a] = size[a] / 2 - dims[a] / 2;
    max[a] = size[a] / 2 + dims[a] / 2;
  }
  return { min: min as Vec3, max: max as Vec3, radiusMm, axis };
}

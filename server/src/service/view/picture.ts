/** A part as the view shows it: the mesh with named faces, and what the text and the rules say of it. */
import { pointAt } from '../../geometry/2d/edge';
import { namedTogether } from '../../geometry/mesh/together';
import type { ShownSurface } from '../../geometry/mesh/traced';
import { bodyOf } from '../../geometry/solid/body';
import { stockBody } from '../../geometry/solid/stock-body';
import type { Loop, Void } from '../../geometry/types';
import { AXIS_INDEX, type AxisIndex } from '../../geometry/vector';
import { memo } from '../../memo';
import type { Part } from '../../model/model';
import { OF_SETUPS } from '../../planning/as-written';
import { crossOf, stockOf } from '../../process/stock';
import { leading } from '../../rules/kit/parts';
import type { Finding } from '../../rules/kit/rule';
import { formatLength } from '../../text/format';
import { at } from '../../text/tree';
import { rangeOf } from '../lsp';
import type { PartSnapshot } from '../snapshot';
import { labelOf } from './labels';
import { isGap, marksOf } from './marks';
import type { MadeMesh } from './mesh-maker';
import { madeBy, setupsOf } from './moments';
import { surfaceName } from './names';
import type { Moment, PartPicture, PictureFinding, PictureSetup, PictureThing, Surface } from './protocol';
import type { SetUpTold } from './set-up';
import { summaryOf } from './summary';
import type { Pictured } from './told';

/** A mesh, and what it was made with. */
interface Shown {
  readonly version: number;
  readonly made: MadeMesh;
  readonly voids: readonly Void[];
  /** Of the workpiece that it shows, where it is not the finished part. */
  readonly moment?: Moment | undefined;
  readonly planned?: boolean;
  /** Of the set-up that the moment is of. */
  readonly setUp?: SetUpTold;
}

/** Features that the mesh lacks. */
export function missingIn({ made }: Pick<Shown, 'made'>): readonly string[] {
  return [...new Set(made.missing.map((v) => v.feature))];
}

/** What is told beside the mesh, where it takes long to work out. */
export type Told = Pick<PartPicture, 'setups' | 'summary'>;

/** `missing`: features that the mesh lacks. */
export function toldOf(snapshot: PartSnapshot, missing: readonly string[], planned: boolean): Told {
  const of = madeBy(snapshot.checked, planned);
  return { setups: of ? setupsOf(snapshot, of, planned) : [], summary: summaryOf(snapshot, missing) };
}

export function pictured(snapshot: PartSnapshot, shown: Shown, told: Told): Pictured {
  const { part, solid } = snapshot.checked;
  const { version, made, voids, moment, planned = false } = shown;
  const missing = missingIn(shown);
  const leftOut = unreadFeatures(snapshot);
  const uncut = moment ? uncutIn(snapshot, voids) : [];
  // What is said of set-ups is said of those that are written.
  const findings = planned ? snapshot.findings.filter((f) => !OF_SETUPS.test(f.rule)) : snapshot.findings;
  const picture = {
    uri: snapshot.path,
    version,
    name: part.name,
    units: part.units,
    ...(moment ? { moment } : {}),
    ...(planned && { planned }),
    ...(uncut.length > 0 && { uncut }),
    surfaces: namedSurfaces(namedTogether(made.pieces).surfaces, voids, part),
    features: part.features.map((f) => ({
      name: f.name,
      kind: f.kind,
      range: rangeOf(snapshot, f.span),
      nameRange: rangeOf(snapshot, f.nameSpan),
    })),
    findings: findings.map((f) => shownFinding(snapshot, f)),
    setups: told.setups.map((s, i) => (i === moment?.setup ? withPasses(s, shown.setUp) : s)),
    body: solid.body.box,
    stock: shownStock(part),
    summary: told.summary,
    ...(leftOut.length > 0 && { leftOut }),
    ...(missing.length > 0 ? { missing } : {}),
  };
  return { picture, pieces: made.pieces };
}

/** The same object at every step through them. */
const withPasses = memo((setup: PictureSetup, told: SetUpTold | undefined): PictureSetup => {
  if (!told) return setup;
  const { cutters, passes, zero } = told;
  return {
    ...setup,
    ...(zero && { zero }),
    ...(cutters.length > 0 && { cutters }),
    ...(passes.length > 0 && { passes }),
  };
});

/** Features of which nothing is gone from the workpiece. */
function uncutIn({ checked: { part, solid } }: PartSnapshot, voids: readonly Void[]): readonly string[] {
  const cut = new Set(voids.map((v) => v.feature));
  return part.features.filter((f) => !cut.has(f.name) && solid.voidsOf(f.name).length > 0).map((f) => f.name);
}

/** Those that stand in the text and could not be read, with where. */
function unreadFeatures(snapshot: PartSnapshot): NonNullable<PartPicture['leftOut']> {
  const { part, tree } = snapshot.checked;
  const written = part.broken.size > 0 ? at(tree.root, 'features') : undefined;
  if (written?.type !== 'map') return [];
  return written.entries
    .filter((e) => part.broken.has(String(e.key.value)))
    .map((e) => ({ name: String(e.key.value), nameRange: rangeOf(snapshot, e.key.span) }));
}

/** The surfaces of a mesh as the view knows them; `voids` is the list that the mesh was made from. */
function namedSurfaces(surfaces: readonly ShownSurface[], voids: readonly Void[], part: Part): Surface[] {
  const members = new Map<string, Void[]>();
  const keyOf = (v: Void) => `${v.feature} ${v.member}`;
  for (const v of voids) {
    const known = members.get(keyOf(v));
    if (known) known.push(v);
    else members.set(keyOf(v), [v]);
  }
  return surfaces.map((s) => namedSurface(s, part.featureByName, s.of ? members.get(keyOf(s.of))! : []));
}

/** The same object as long as nothing of it changes. */
const namedSurface = memo(
  (s: ShownSurface, features: Part['featureByName'], siblings: readonly Void[]): Surface => {
    const { of } = s;
    const feature = of && features.get(of.feature);
    return {
      ...(feature ? { feature: of.feature } : {}),
      member: of?.member ?? 0,
      name: surfaceName(s, feature, siblings),
      shape: shapeOf(s),
    };
  },
  { by: (s, features, siblings) => [s.of && features.get(s.of.feature), siblings] },
);

function shapeOf({ shape }: ShownSurface): Surface['shape'] {
  switch (shape.type) {
    case 'plane':
      return shape;
    case 'cylinder':
      return { type: 'cylinder', axis: shape.axis, through: shape.through, radiusMm: shape.radiusMm };
    case 'cone':
      return { type: 'cone', axis: shape.axis, apex: shape.apex, halfAngleDeg: shape.halfAngleDeg };
    case 'ring':
      return { type: 'free' };
    default:
      return shape satisfies never;
  }
}

function shownFinding(snapshot: PartSnapshot, finding: Finding): PictureFinding {
  const { part, solid } = snapshot.checked;
  const label = labelOf(finding, (mm) => formatLength(mm, part.units));
  return {
    rule: finding.rule,
    severity: finding.severity,
    message: finding.message,
    ...leading(finding.message),
    of: finding.of,
    range: rangeOf(snapshot, finding.span),
    at: marksOf(finding, solid),
    ...(isGap(finding) ? { gap: true } : {}),
    ...(label === undefined ? {} : { label }),
  };
}

/** The bar before anything is cut, in part axes: the body and what is left over it on each face. */
function shownStock(part: Part): PartPicture['stock'] {
  const body = stockBody(part);
  const { section, axis } = part.stock;
  if (section && axis) return { ...body.box, ...sectionOutline(part, AXIS_INDEX[axis]) };
  return { ...body.box, ...(body.form === 'round' ? { radiusMm: body.radius, axis: body.axis } : {}) };
}

/** Across a tube, angle, channel or tee: as a line round it, and round its hollow. */
function sectionOutline(part: Part, along: AxisIndex): Pick<PictureThing, 'along' | 'outline' | 'holes'> {
  const { box } = stockBody(part);
  const stock = stockOf(part, bodyOf(part));
  const [region] = crossOf(stock, along, (box.min[along] + box.max[along]) / 2).regions ?? [];
  if (!region) return {};
  const line = ({ edges }: Loop) =>
    edges
      .flatMap((e) => Array.from({ length: e.type === 'line' ? 1 : ARC_LINES }, (_, i) => pointAt(e, i / ARC_LINES)))
      // Sections count in the axes after the bar's in turn, outlines in their order.
      .map(({ u, v }) => (along === 1 ? ([v, u] as const) : ([u, v] as const)));
  return { along, outline: line(region.outer), holes: region.holes.map(line) };
}

/** An arc of a drawn section is so many lines; a line is one. */
const ARC_LINES = 48;

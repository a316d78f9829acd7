/** access/no-tool – nothing on hand makes one of a feature's cuts, and no rule of its own tells it. */

import { memo } from '../../memo';
import { materialOf } from '../../model/material-of';
import { featureNameOf, memberName } from '../../model/member-name';
import { FACES, type Face, type Feature } from '../../model/model';
import type { ChamferMill, Machine } from '../../model/shop-model';
import { isCone } from '../../model/tool-kinds';
import { facingInSetup } from '../../process/access/facing';
import { type Lack, type Missing, type Operation, operationsOf } from '../../process/operations';
import { facingCuts } from '../../process/operations/facing';
import { leans } from '../../process/operations/seen';
import { unfit } from '../../process/operations/unfit';
import { cutsOf, timelineOf } from '../../process/stock';
import type { Material } from '../../tables/materials';
import { lengthsIn } from '../../text/format';
import type { Span } from '../../text/tree';
import { change, edited } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { setLength } from '../kit/edits';
import { setField } from '../kit/fields';
import { list, roundDown, spanOf, subjectOf } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { isAir } from '../kit/samples';

/** What a more exact rule says of it: where one of these stands, the same is not told twice. */
const SAID_BY: Readonly<Record<Lack, readonly string[]>> = {
  bore: ['hole/odd-diameter', 'access/reach'],
  'bore-before': [],
  'flat-bottom': ['hole/flat-bottom'],
  tap: ['thread/no-tap', 'thread/unknown', 'access/reach'],
  counterbore: [],
  countersink: [],
  mill: ['access/reach', 'corner/inside-radius', 'corner/floor-radius'],
  'sharp-corner': ['corner/square'],
  chamfer: [],
  round: [],
  engraver: ['access/reach'],
  undercutter: ['access/undercut'],
  disc: [],
  slope: [],
  facing: ['access/reach'],
  stronger: [],
};

/** The field that sets the size of the tool, the first that is written. */
const FIELDS: Readonly<Record<Lack, readonly string[]>> = {
  bore: ['diameter', 'depth'],
  'bore-before': ['diameter', 'depth'],
  'flat-bottom': ['depth'],
  tap: ['thread', 'threadDepth', 'depth'],
  counterbore: ['counterbore'],
  countersink: ['countersink'],
  mill: ['width', 'shape', 'depth'],
  'sharp-corner': ['shape', 'depth'],
  chamfer: ['size'],
  round: ['radius'],
  engraver: ['stroke', 'text'],
  undercutter: ['tee', 'dovetail', 'width'],
  disc: ['width', 'depth'],
  slope: ['given'],
  facing: [],
  stronger: ['depth', 'width', 'diameter'],
};

/** It says of a feature that others cut all of it: nothing has to make it, where its turn comes after theirs. */
const IDLE = 'form/removes-nothing';

function isNeedless(feature: Feature, { part, solid, raised = [] }: RuleContext): boolean {
  const idle = raised.find((f) => f.rule === IDLE && f.of.some((name) => featureNameOf(name) === feature.name));
  const voids = solid.voidsOf(feature.name);
  const members = new Set(voids.map((v) => memberName(feature.name, v.member)));
  if (!idle || [...members].some((name) => !idle.of.includes(name))) return false;
  return cutsOf(timelineOf(part, solid), feature).every((cut) => cut.removes.every((v) => isAir(v, cut.before)));
}

interface Lacking {
  readonly of: readonly string[];
  readonly missing: Missing;
  readonly span: Span;
}

function* lacking(context: RuleContext): Generator<Lacking> {
  const { part, solid, shop } = context;
  for (const feature of part.features) {
    const told = new Set<string>();
    for (const missing of missingOf(operationsOf(feature, { part, solid, shop }), materialOf(part), shop.machines[0])) {
      if (isNeedless(feature, context)) break;
      if (told.has(missing.wanted)) continue;
      told.add(missing.wanted);
      // How round a corner must be that stands square is for its own rule, which knows what nobody will notice.
      if (missing.lacks === 'sharp-corner' && !leans(feature)) continue;
      yield { of: [feature.name], missing, span: spanOf(feature, ...FIELDS[missing.lacks]) };
    }
  }
  yield* unfaced(context);
}

/** There is none, or on the shop's first machine it does not stand the cut. */
const missingOf = memo(
  (
    operations: readonly Operation[],
    material: Material | undefined,
    machine: Machine | undefined,
  ): readonly Missing[] =>
    operations.flatMap((operation) => {
      if (operation.does === 'missing') return [operation];
      const wanted = unfit(operation, material, machine);
      const { feature, times } = operation;
      return wanted ? [{ does: 'missing', lacks: 'stronger', wanted, feature, times } as Missing] : [];
    }),
);

/** Faces with stock on them: as the set-ups cut them, or, where none are written, with whatever cuts a face at all. */
function* unfaced({ part, solid, shop }: RuleContext): Generator<Lacking> {
  for (const { setup, cuts } of timelineOf(part, solid).setups) {
    for (const cut of cuts) {
      if (!cut.face) continue;
      const missing = facingInSetup(cut, setup, part, shop).find((o) => o.does === 'missing');
      if (missing) yield { of: [cut.name], missing, span: cut.span };
    }
  }
  if (part.setups) return;
  const missingOf = (face: Face) => facingCuts(face, {}, part, shop).find((o) => o.does === 'missing');
  const faces = FACES.filter((face) => missingOf(face));
  const [first] = faces;
  if (first) yield { of: faces, missing: missingOf(first)!, span: part.stock.span };
}

interface Hit extends Lacking {
  readonly near: Near | undefined;
}

/** A size that a tool on hand makes, near to the one that none does. */
interface Near {
  readonly mm: number;
  readonly tool: string;
  readonly most: boolean;
}

function nearOf(feature: Feature | undefined, lacks: Lack, { shop, part }: RuleContext): Near | undefined {
  const cones = (angles: readonly number[]) =>
    shop.tools.filter((t): t is ChamferMill => isCone(t) && angles.some((a) => Math.abs(t.angleDeg - a) < 1));
  if (feature?.kind === 'chamfer' && lacks === 'chamfer') {
    const { deg } = feature.angle;
    const wide = (t: ChamferMill) => (t.diameterMm - t.tipMm) / 2 / Math.max(1, Math.tan((deg * Math.PI) / 180));
    return widest(cones([180 - 2 * deg, 2 * deg]), wide, part.units);
  }
  if (feature?.kind === 'hole' && feature.countersink && lacks === 'countersink') {
    const starts = cones([feature.countersink.angle.deg]).filter((t) => t.tipMm <= feature.diameter.mm);
    return widest(starts, (t) => t.diameterMm, part.units);
  }
  if (feature?.kind !== 'edge-round' || lacks !== 'round') return undefined;
  const off = (mm: number) => Math.abs(mm - feature.radius.mm);
  const [rounder] = shop.tools
    .flatMap((t) => (t.kind === 'corner-rounder' ? [t] : []))
    .sort((a, b) => off(a.cornerRadiusMm) - off(b.cornerRadiusMm));
  return rounder && { mm: rounder.cornerRadiusMm, tool: rounder.name, most: false };
}

function widest(tools: readonly ChamferMill[], wide: (t: ChamferMill) => number, units: 'mm' | 'in'): Near | undefined {
  const [best] = [...tools].sort((a, b) => wide(b) - wide(a));
  const mm = best ? roundDown(wide(best), units) : 0;
  return best && mm > 0 ? { mm, tool: best.name, most: true } : undefined;
}

function tellLacking({ of, missing, span, near }: Hit, { part, shop, length }: RuleContext): Told {
  const { lacks } = missing;
  const wanted = lengthsIn(missing.wanted, part.units);
  const on = lacks === 'facing' ? `The stock on ${list(of)}` : subjectOf(part, of[0]!);
  const cure = near
    ? `Make it ${length(near.mm)}${near.most ? ' at most' : ''} (${near.tool})`
    : lacks === 'sharp-corner'
      ? 'Make its corners round'
      : shop.tools.length === 0
        ? 'Add the tools there are to the shop file'
        : 'Add one to the shop file, or change it for a tool that is there';
  return {
    severity: shop.tools.length === 0 ? 'warning' : undefined,
    message: `${on} needs ${article(wanted)}${wanted}. The ${shop.builtIn ? 'built-in ' : ''}shop has none. ${cure}.`,
    of,
    span,
    facts: { wanted, would_do_mm: near?.mm, would_do_tool: near?.tool },
  };
}

function article(words: string): string {
  if (/^an? /.test(words)) return '';
  return /^[aeiou]/i.test(words) || /^M\d/.test(words) ? 'an ' : 'a ';
}

const BAD = `part: wedge
material: aluminium-6061-t6
body: { x: 80, y: 60, z: 40 }
features:
  slope: { kind: chamfer, edges: top, size: 15 }
`;

export const noTool: Rule = defineRule({
  name: 'access/no-tool',
  severity: 'error',
  mildByBuiltIn: true,
  summary: 'No tool in the shop makes one of a feature’s cuts.',
  why: 'A chamfer is at most as wide as the cone that cuts it, a slope as long as a flank. Without the cutter the feature cannot be made as written.',
  formula:
    'The cuts are those of the hover and of `--facts`. Reported where they have no tool in the shop, and no other rule reports it. The message says what the cut needs, and the nearest size that a tool in the shop makes. A warning where only the built-in shop is known, or the shop lists no tools yet.',
  bounds: 'The tools in the shop file.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['size: 15', 'size: 4']),
  mends: 'Use the nearest size that a tool in the shop makes.',
  when: 'after',
  under: [IDLE, ...new Set(Object.values(SAID_BY).flat())],
  *find(context): Generator<Hit> {
    const { part, raised = [] } = context;
    for (const found of lacking(context)) {
      const { of, missing } = found;
      const rules = SAID_BY[missing.lacks];
      if (raised.some((f) => rules.includes(f.rule) && f.of.some((name) => of.includes(featureNameOf(name))))) continue;
      yield { ...found, near: nearOf(part.featureByName.get(of[0]!), missing.lacks, context) };
    }
  },
  tell: tellLacking,
  keep: ({ of, near }) => near && { of: of[0]!, mm: near.mm, tool: near.tool },
  *mend({ of, mm, tool }, { part, tree, length, write }) {
    const feature = part.featureByName.get(of);
    const title = `Make it ${length(mm)}, for ${tool}`;
    if (feature?.kind === 'hole') yield change(title, setField(tree, of, 'diameter', write(mm), 'countersink'));
    if (feature?.kind === 'chamfer') yield change(title, setLength(feature.size, mm, part));
    if (feature?.kind === 'edge-round') yield change(title, setLength(feature.radius, mm, part));
  },
});

/** hold/squeeze – a wall or bore between the jaws gives way under the clamping force. */

import type { Void } from '../../geometry/types';
import { isChannel } from '../../model/feature-kinds';
import { materialOf } from '../../model/material-of';
import type { Feature, Length } from '../../model/model';
import type { SetupInTime } from '../../process/stock/types';
import { clampFor, heaviestOf } from '../../process/workholding/forces';
import { heldOf, type InJaws } from '../../process/workholding/in-jaws';
import { type Pressed, pressedIn } from '../../process/workholding/pressed';
import { type Squeezed, squeezedIn } from '../../process/workholding/squeeze';
import { generalLinear, parseGeneralTolerance } from '../../tables/general-tolerances';
import type { Material } from '../../tables/materials';
import { change } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { gripFix, gripsOnHand, heldIn, otherJaws } from '../kit/holds';
import { memberOf, trimmed } from '../kit/message';
import { laidDown } from '../kit/other-holds';
import type { Facts, Fix, Rule, RuleContext } from '../kit/rule';
import { reordered } from '../kit/setups';
import { type Fine, finesInArms, tellFine } from './fine-in-arm';
import { frictionOf, slips } from './slips';

/** Nobody closes a vise with less than this share of its force and calls it clamped. Common practice, no source. */
const HAND_TIGHT = 0.15;

/** The tightest size of a feature, as the whole width of its tolerance, mm. */
function tightestMm(feature: Feature | undefined): number | undefined {
  const sizes: (Length | undefined)[] = [];
  if (feature?.kind === 'hole') sizes.push(feature.diameter, feature.counterbore?.diameter);
  else if (isChannel(feature)) sizes.push(feature.width);
  else if (feature?.kind === 'pocket') {
    const { shape } = feature;
    if (shape.type === 'rectangle') sizes.push(shape.u, shape.v);
    if (shape.type === 'circle') sizes.push(shape.diameter);
  }
  const widths = sizes.flatMap((l) => {
    const t = l?.tolerance;
    return t?.upperMm !== undefined && t.lowerMm !== undefined ? [t.upperMm - t.lowerMm] : [];
  });
  return widths.length > 0 ? Math.min(...widths) : undefined;
}

/** What gives way about one opening: a wall beside it, or the block that it is in, whichever does more. */
type Giving = ({ readonly as: 'block' } & Pressed) | Squeezed;

interface Trouble {
  readonly q: Giving;
  readonly x: InJaws;
  /** What is cut while it is squeezed, the closest. */
  readonly name: string;
  readonly allowedMm: number;
  /** How far out of true it is cut at all the force that the vise has. */
  readonly outMm: number;
  /** At the force the cuts ask for, and at all the vise has. */
  readonly neededN: number;
  readonly fullN: number;
  /** More force than this is too much. */
  readonly mostN: number;
  readonly yields: boolean;
}

function* troubles(context: RuleContext): Generator<Trouble> {
  const { part, solid, shop } = context;
  const material = materialOf(part);
  if (!material) return;
  for (const x of heldOf({ part, solid, shop })) {
    if (x.hold.type !== 'vise') continue;
    const squeezed = givingIn(x, material.youngMPa);
    if (squeezed.length === 0) continue;
    const fullN = x.inVise.vise.forceN;
    let neededN: number | undefined;
    for (const q of squeezed) {
      const { byYield, byMove, ...found } = mostOf(q, x, material, context);
      const mostN = Math.min(byMove, byYield);
      if (mostN >= fullN) continue;
      neededN ??= Math.min(fullN, Math.max(HAND_TIGHT * fullN, need(x, context)));
      yield { q, x, ...found, neededN, fullN, mostN, yields: byYield < byMove };
    }
  }
}

type Most = Pick<Trouble, 'name' | 'allowedMm' | 'outMm'> & { readonly byMove: number; readonly byYield: number };

/** The most force that what is cut while it is squeezed may bear, N, by how far it moves and by where it yields. */
function mostOf(q: Giving, x: InJaws, material: Material, context: RuleContext): Most {
  const { part } = context;
  const fullN = x.inVise.vise.forceN;
  const cut = cutsWith(q, x, context);
  const allowed = (name: string) => tightestMm(part.featureByName.get(name)) ?? untoleranced(q, context);
  const [name = memberOf(q.of)] = [...cut].sort((a, b) => allowed(a) - allowed(b));
  const allowedMm = allowed(cut.length > 0 ? name : q.of.feature);
  // What was there before springs back; what is cut while it is squeezed stays as it was cut.
  const pinched = pinchedMm(q, fullN, context);
  const leftMm = Math.max(0, allowedMm - pinched);
  return {
    name: name === q.of.feature ? memberOf(q.of) : name,
    allowedMm,
    outMm: q.mmPerN * fullN + pinched,
    byMove: cut.length > 0 && q.mmPerN > 0 ? leftMm / q.mmPerN : Number.POSITIVE_INFINITY,
    byYield: material.yieldMPa && q.mPaPerN > 0 ? material.yieldMPa / q.mPaPerN : Number.POSITIVE_INFINITY,
  };
}

/** Jaws that do not close parallel pinch the free ends of a fork by as much as they are out there, as far as the force goes. */
function pinchedMm(q: Giving, fullN: number, { limit }: RuleContext): number {
  if (q.as !== 'arm' || q.pinchedMmPerN === undefined) return 0;
  return Math.min((limit('out-of-parallel') * q.spanMm) / 100, q.pinchedMmPerN * fullN);
}

/** What is cut while the volume's walls are pressed: itself, and, between the free arms of a slit, what is cut after it and meets it. */
function cutsWith({ of, as }: Giving, { inTime: s }: InJaws, { solid }: RuleContext): readonly string[] {
  const own = s.cuts.find((c) => c.name === of.feature);
  const meets = (v: Void) => solid.sharedMm3(v, of) > 0;
  const others =
    as === 'arm'
      ? s.cuts.filter((c) => c !== own && (!own || c.order > own.order) && solid.voidsOf(c.name).some(meets))
      : [];
  return [...(own ? [own] : []), ...others].map((c) => c.name);
}

function givingIn(x: InJaws, youngMPa: number): readonly Giving[] {
  const walls = squeezedIn(x, youngMPa);
  const by = new Map(walls.map((q) => [q.of, q]));
  const blocks = pressedIn(x, youngMPa).filter((p) => p.mmPerN > (by.get(p.of)?.mmPerN ?? 0));
  const more = new Set(blocks.map((p) => p.of));
  return [...walls.filter((q) => !more.has(q.of)), ...blocks.map((p) => ({ ...p, as: 'block' as const }))];
}

/** A wall that bends makes a crooked opening; a block that is pressed only an oval one, which its general tolerance holds or not. */
function untoleranced(q: Giving, { part, limit }: RuleContext): number {
  if (q.as !== 'block') return limit('moves');
  const general = part.tolerance && parseGeneralTolerance(part.tolerance.name);
  return Math.max(limit('moves'), 2 * (generalLinear(q.widthMm, general?.linear ?? 'm')?.value ?? 0));
}

function need(x: InJaws, context: RuleContext): number {
  const { part, limitOf } = context;
  const push = heaviestOf(x.inTime, context);
  const mu = frictionOf(x, { part, limit: (name) => limitOf(slips, name) });
  return push ? clampFor(push.forceN, mu, limitOf(slips, 'safety')) : 0;
}

const kN = (n: number) => (n < 1000 ? `${trimmed(n, 0)} N` : `${trimmed(n / 1000, 1)} kN`);

/** What gives way, under what, and how far. */
function givesText({ q, x, name, yields, allowedMm, outMm, fullN }: Trouble, { length, about }: RuleContext): string {
  const by = `the ${kN(fullN)} of ${x.inVise.vise.name}`;
  const stressed = `bends for good under ${by} (${trimmed(q.mPaPerN * fullN, 0)} MPa)`;
  const out = `Feature ${name} is cut ${about(outMm, allowedMm)} out of true`;
  const allowed = `${length(allowedMm)} is allowed`;
  if (q.as === 'block') {
    if (yields) return `the workpiece ${stressed}`;
    return `${by} press the workpiece ${about(q.blockMmPerN * fullN)} together. ${out}; ${allowed}`;
  }
  const wall = `the ${about(q.wallMm)} ${q.as === 'arm' ? 'arm' : 'wall'} between ${memberOf(q.of)} and the jaw`;
  if (yields) return `${wall} ${stressed}`;
  return `${wall} bends under ${by}. ${out}${q.as === 'ring' ? ' (oval)' : ''}; ${allowed}`;
}

/** Of a wall how thick and long it is; of a block how wide the opening is, and how much the whole is pressed together. */
function sizeFacts(q: Giving, fullN: number): Facts {
  if (q.as !== 'block') return { wall_mm: q.wallMm, span_mm: q.spanMm };
  return {
    width_mm: q.widthMm,
    between_jaws_mm: q.lengthMm,
    block_mm: q.blockMmPerN * fullN,
    there_mpa: q.therePerN * fullN,
  };
}

function tellTrouble(t: Trouble, context: RuleContext): Told {
  const { part } = context;
  const { q, x, mostN, neededN, fullN } = t;
  const { inTime: s, hold } = x;
  const little = mostN < neededN;
  const cut = s.cuts.find((c) => c.name === q.of.feature);
  return {
    severity: little ? undefined : 'hint',
    message: `Set-up ${s.setup.name}: ${givesText(t, context)}. ${little ? `Grip other faces, or below it: the cuts need ${kN(neededN)}, too much.` : `Close the vise gently: ${kN(mostN)} at most; the cuts need ${kN(neededN)}.`}`,
    of: [memberOf(q.of)],
    span: cut?.span ?? hold.span,
    related: [
      { span: hold.jaws?.[0]?.span ?? hold.span, message: 'the jaws' },
      ...(part.featureByName.has(q.of.feature)
        ? [{ span: part.featureByName.get(q.of.feature)!.nameSpan, message: `${memberOf(q.of)} is between them` }]
        : []),
    ],
    facts: {
      set_up: s.setup.name,
      ...sizeFacts(q, fullN),
      deflection_mm: t.outMm,
      allowed_mm: t.allowedMm,
      stress_mpa: q.mPaPerN * fullN,
      clamp_n: fullN,
      needed_n: neededN,
      most_n: mostN,
      contact_mm2: x.contact.opposed.areaMm2,
      as: q.as,
    },
  };
}

/** The bore made in the solid, and the gap after it. */
function beforeTheGap(bore: string, gap: string, { setup }: SetupInTime, context: RuleContext): Fix | undefined {
  const fine = setup.cuts.find((c) => c.name === bore);
  const others = setup.cuts.filter((c) => c !== fine);
  const at = others.findIndex((c) => c.name === gap);
  if (!fine || at < 0) return undefined;
  return change(`Cut ${bore} before ${gap}`, reordered(setup, others.toSpliced(at, 0, fine), context));
}

const sample = (jaws: string) => `part: frame
material: aluminium-6061-t6
body: { x: 90, y: 60, z: 20 }
features:
  window: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 70, y: 44 }, corner-radius: 8, depth: through }
setups:
  first:
    up: top
    hold: { vise: mill-vise-100, jaws: ${jaws}, grip: 6, parallels: 26 }
    cuts: [window]
`;

export const squeeze: Rule = defineRule({
  name: 'hold/squeeze',
  severity: 'warning',
  summary: 'A wall, a bore or the whole workpiece between the jaws bends under the vise.',
  why: 'The vise presses a frame or a thin ring together. It is cut straight, and springs back crooked when the vise is opened. Gripped too hard it stays bent.',
  formula:
    'The pressure p is the clamping force F over the area that the jaws press on. A wall beside a pocket is a strip held at both ends: p L⁴ / (32 E t³). Where it has a floor, a ledge shares the load: 3 p h⁴ / (2 E t³). For a bore, the width counts where it is less than twice as thick as at its thinnest. A pocket right through and open at one end leaves the arms of a fork. Where the jaws press over the bridge, the force goes straight through it: F w / (E A). Where they press short of it by a, the bridge bends: F e w / (2 E I) at each end. Each arm then bends F a² (3 L − a) / (6 E I). What is cut after it and meets it is checked too. Jaws `out-of-parallel` pinch the ends. A bore to `fine` or finer in such an arm is always reported. A wall open on one side with a floor is an arm evenly pressed: 3 p L⁴ / (2 E t³). A tube between flat jaws is a ring pressed along two lines: (π/4 − 2/π) F R³ / (E I). Beams and rings are after Timoshenko. A rigid jaw presses less on what bends, so the true figure is smaller. The whole workpiece gets shorter by F L / (A E), the force spreading at 45°. With the stress σ there, an opening cut in it is out by σ (w + 2 l) / E. For a bore it is 3 σ D / E (Kirsch, Inglis). That counts where a plastic is gripped like metal. The force that the cuts need is twice what the heaviest cut needs, by friction. Where so little is enough, it is a hint.',
  limits: [
    {
      name: 'moves',
      value: 0.05,
      unit: 'mm',
      what: 'How far out of true a pocket or bore without a tolerance may be.',
      source: 'common practice, no source: half of ISO 2768-1 f for small sizes',
    },
    {
      name: 'out-of-parallel',
      value: 0.05,
      unit: 'mm',
      what: 'How far out of parallel the jaws close, over 100 mm of their length.',
      source: 'common practice, no source: 0.01 to 0.02 of a good vise, more where its moving jaw has play',
    },
    {
      name: 'fine',
      value: 0.03,
      unit: 'mm',
      what: 'Widest tolerance of a bore that must not be cut in an arm under the jaws.',
      source: 'common practice, no source: reamed and bored fits to H7, and to H8 up to 18 mm',
    },
  ],
  bad: sample('[back, front]'),
  good: sample('[left, right]'),
  mends: 'Grip the other pair of faces, or below it, or use clamps or screws through its own holes.',
  *find(context): Generator<Trouble | Fine> {
    yield* troubles(context);
    const { part, solid, shop } = context;
    const material = materialOf(part);
    if (!material) return;
    for (const x of heldOf({ part, solid, shop }))
      if (x.hold.type === 'vise') yield* finesInArms(x, squeezedIn(x, material.youngMPa), context, tightestMm);
  },
  tell: (hit, context) => ('gap' in hit ? tellFine(hit, context) : tellTrouble(hit, context)),
  keep: (hit) => ({
    setup: hit.x.inTime.setup.name,
    after: 'gap' in hit ? { bore: hit.cut.name, gap: hit.gap } : undefined,
  }),
  *mend({ setup, after }, context): Generator<Fix | undefined> {
    const x = heldIn(setup, context);
    if (!x) return;
    if (after) yield beforeTheGap(after.bore, after.gap, x.inTime, context);
    yield otherJaws(x, context);
    for (const g of gripsOnHand(x, context, 3).filter((g) => g < x.gripMm)) yield gripFix(x, g, context);
    yield* laidDown(x, context);
  },
});

/** hold/cut-free – a contour right through frees the part from what holds it. */

import { type Contour, FACE_AXIS, OPPOSITE, type Setup } from '../../model/model';
import type { Mill, Tool } from '../../model/shop-model';
import { toolFor } from '../../process/access';
import { toolAskedFor } from '../../process/access/candidates';
import { endMills, SAME_REACH_MM } from '../../process/cutters';
import { operationsOf } from '../../process/operations';
import { isMaterial, timelineOf } from '../../process/stock';
import type { Cut, SetupInTime } from '../../process/stock/types';
import { heldOf, type InJaws } from '../../process/workholding/in-jaws';
import {
  FRAME_SHARE,
  frameShare,
  type IfFaced,
  ifFaced,
  isThroughContour,
  jawsFor,
  stays,
} from '../../process/workholding/loose';
import { setText } from '../../text/edit';
import { change } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { together } from '../kit/fields';
import { setupMap } from '../kit/holds';
import { list, trimmed, wouldDo } from '../kit/message';
import { moveCut } from '../kit/moves';
import type { Fix, Rule, RuleContext } from '../kit/rule';
import { letsGo } from './in-the-cut';

interface Freed {
  readonly s: SetupInTime;
  readonly cut: Cut;
  readonly contour: Contour;
  readonly why: 'jaws' | 'clamps' | 'screws' | 'tabs';
  /** Of tabs: on how much of the way round there is stock that they lead to beyond the cutter, 0 … 1; and what would do. */
  readonly frame?: Frame;
  readonly x?: InJaws;
}

function* freed(context: RuleContext): Generator<Freed> {
  const { part, solid } = context;
  if (!part.features.some(isThroughContour)) return;
  for (const s of timelineOf(part, solid).setups)
    for (const cut of s.cuts) {
      if (!isThroughContour(cut.feature) || cut.after === cut.before) continue;
      yield* freedBy({ s, cut, contour: cut.feature }, context);
    }
}

/** Cut through all round, the part is held by nothing that holds only what was around it. */
function* freedBy(of: Omit<Freed, 'why'>, context: RuleContext): Generator<Freed> {
  const { s, cut, contour } = of;
  const { type, clamps, screws } = s.setup.hold ?? {};
  if (type === 'vise' || type === 'soft-jaws') {
    const here = heldOf(context).find((x) => x.inTime === s);
    if (here && here.contact.opposed.areaMm2 >= 1 && letsGo({ x: here, cut })) yield { ...of, why: 'jaws', x: here };
  }
  if (type === 'clamps' && clamps?.length && !clamps.some((p) => stays(contour, p))) yield { ...of, why: 'clamps' };
  if (type === 'screws' && screws && !screws.some((n) => holdsBy(n.name, contour, context)))
    yield { ...of, why: 'screws' };
  if (type !== 'tabs') return;
  const frame = frameOf(contour, cut, s, context);
  if (frame.share < FRAME_SHARE) yield { ...of, why: 'tabs', frame };
}

interface Frame {
  /** The mill that goes round; none where nothing on hand does. */
  readonly mill?: Mill;
  readonly asked: boolean;
  /** From the outline to where stock must stand. */
  readonly neededMm: number;
  readonly share: number;
  /** The widest that leaves a frame, where the cut's own does not. */
  readonly wouldDo?: Mill;
}

/** A cutter goes between the part and its frame, and eats what is in its way. */
function frameOf(contour: Contour, cut: Cut, s: SetupInTime, context: RuleContext): Frame {
  const { part, solid, shop } = context;
  const isMill = (t: Tool | undefined): t is Mill => t?.kind === 'end-mill';
  // Where what holds it now is in the way of every tool, the one that its finishing is planned with.
  const planned = operationsOf(contour, { part, solid, shop }).flatMap((o) => (o.does === 'finish' ? [o.tool] : []));
  const mill = [...toolFor(cut, s, { part, solid, shop }).map((u) => u.tool), ...planned].find(isMill);
  const beyond = (m: Mill | undefined) => (m?.diameterMm ?? 0) + context.limit('frame');
  const shareWith = (m: Mill | undefined) => frameShare(contour, part, beyond(m), (p) => isMaterial(cut.before, p));
  const share = shareWith(mill);
  const asked = toolAskedFor(s.setup, cut.name, shop) !== undefined;
  const base = { ...(mill && { mill }), asked, neededMm: beyond(mill), share };
  if (share >= FRAME_SHARE || !mill) return base;
  const deepMm = Math.max(...cut.removes.map((v) => v.to - v.from));
  const slimmer = endMills(shop).filter((m) => m.diameterMm < mill.diameterMm && m.reachMm >= deepMm - SAME_REACH_MM);
  const wouldDo = slimmer.find((m) => shareWith(m) >= FRAME_SHARE);
  return wouldDo ? { ...base, wouldDo } : base;
}

/** A hole along the contour's axis, in what stays. */
function holdsBy(name: string, contour: Contour, { part }: RuleContext): boolean {
  const hole = part.featureByName.get(name);
  if (hole?.kind !== 'hole' || FACE_AXIS[hole.face].axis !== FACE_AXIS[contour.face].axis) return false;
  return hole.places.some((p) => stays(contour, p));
}

/** Screwed down through holes that are there by then; left on tabs, where they lead to something. */
function* heldDown({ s, cut, contour }: Pick<Freed, 's' | 'cut' | 'contour'>, context: RuleContext): Generator<Fix> {
  const { part, solid, tree, write } = context;
  const map = setupMap(context, s.setup);
  if (!map) return;
  const before = timelineOf(part, solid).setups.flatMap((o) => o.cuts.filter((c) => o.index < s.index && c !== cut));
  const screws = [...new Set(before.map((c) => c.name))].filter((n) => {
    const f = part.featureByName.get(n);
    return f?.kind === 'hole' && f.depth.through && holdsBy(n, contour, context);
  });
  const to = (text: string, title: string) => change(title, setText(tree, map, 'hold', text));
  const screwed =
    screws.length > 0 &&
    to(`{ screws: [${screws.join(', ')}], to: plate }`, `Screw it to a plate through ${screws.join(', ')}`);
  if (screwed) yield screwed;
  const frame = frameOf(contour, cut, s, context);
  if (frame.share < FRAME_SHARE && !frame.wouldDo) return;
  const tabs = to(`{ tabs: { count: 4, width: ${write(5)}, height: ${write(1)} } }`, 'Leave four tabs');
  if (!tabs || frame.share >= FRAME_SHARE) {
    if (tabs) yield tabs;
    return;
  }
  // Only a slimmer cutter than would be taken leaves them a frame.
  const slim = withTool(s.setup, contour.name, frame.wouldDo!.name, context);
  const both = together(tabs.edits, slim?.edits);
  const fix = change(`${tabs.title} and cut ${contour.name} with ${frame.wouldDo!.name}`, both);
  if (fix) yield fix;
}

function tellFreed(f: Freed, context: RuleContext): Told {
  const { s, cut, contour, why, x, frame } = f;
  const faced = x && ifFaced(cut, x, context.part, context.solid);
  if (frame?.mill) return tellEaten(f, frame, frame.mill, context);
  const held = {
    jaws: 'The jaws grip only what is cut off',
    clamps: 'Every clamp presses on what is cut off',
    screws: 'No screw goes through what stays',
    tabs: `The tabs have no frame: ${context.length(context.limit('frame'))} outside there is stock on only ${trimmed(100 * (frame?.share ?? 0), 0)} % of the outline`,
  }[why];
  const { setup } = s;
  return {
    message: faced
      ? stockMessage(setup, contour, faced, context)
      : `Set-up ${setup.name}: contour ${contour.name} goes right through. ${held}: the part comes loose next to the cutter.${(context.counting ? '' : wouldDo([...heldDown(f, context)])) || ' Grip what stays, or leave tabs.'}`,
    of: [contour.name],
    span: cut.span,
    related: [
      { span: setup.hold!.span, message: 'what holds it' },
      { span: contour.nameSpan, message: 'the outline' },
    ],
    facts: {
      set_up: setup.name,
      held_by: why,
      frame_share: frame?.share,
      frame_mm: frame && context.limit('frame'),
      first: faced?.faces.join(' '),
      stock_mm: faced?.stockMm,
      then_mm2: faced?.thenMm2,
    },
  };
}

/** The tabs lead into what the cutter takes. */
function tellEaten({ s, cut, contour }: Freed, frame: Frame, mill: Mill, context: RuleContext): Told {
  const { length, about } = context;
  const { asked, neededMm, share, wouldDo: slimmer } = frame;
  const { setup } = s;
  const cure = slimmer
    ? ` Use ${slimmer.name}.`
    : context.counting
      ? ''
      : wouldDo([...heldDown({ s, cut, contour }, context)]) || ` Leave ${about(neededMm)} of stock all round.`;
  return {
    // Whoever takes a slimmer cutter, where none is written, leaves the frame standing.
    severity: slimmer && !asked ? 'warning' : undefined,
    message: `Set-up ${setup.name}: the tabs of ${contour.name} need a frame of stock. ${mill.name} cuts ${length(mill.diameterMm)} wide; ${about(neededMm)} outside the part there is stock on only ${trimmed(100 * share, 0)} % of the outline.${cure}`,
    of: [contour.name],
    span: cut.span,
    related: [
      { span: setup.hold!.span, message: 'what holds it' },
      { span: contour.nameSpan, message: 'the outline' },
    ],
    facts: {
      set_up: setup.name,
      held_by: 'tabs',
      tool: mill.name,
      diameter_mm: mill.diameterMm,
      needed_mm: neededMm,
      frame_share: share,
      frame_mm: context.limit('frame'),
      would_do: slimmer?.name,
    },
  };
}

/** What the jaws press on is stock outside the part, and the outline takes that off with the rest. */
function stockMessage(
  setup: Setup,
  { name }: Contour,
  { faces, stockMm, thenMm2 }: IfFaced,
  { about }: RuleContext,
): string {
  const which = list(faces);
  return `Set-up ${setup.name}: contour ${name} goes right through. It cuts off the stock that the jaws grip on ${which} (up to ${about(stockMm)}), and the part comes loose. Face ${which} in an earlier set-up: the jaws then grip ${trimmed(thenMm2, 0)} mm² of the part.`;
}

/** Without set-ups. */
interface Unheld {
  readonly contour: Contour;
  readonly belowMm: number;
}

/** Without set-ups: an outline that leaves no two opposite sides to clamp, out of stock that ends where it does. */
function* unheld({ part }: RuleContext): Generator<Unheld> {
  if (part.setups) return;
  for (const contour of part.features.filter(isThroughContour)) {
    const belowMm = part.stock.extra[OPPOSITE[contour.face]]?.mm ?? 0;
    if (belowMm > 0 || jawsFor(contour, part)) continue;
    const screwed = part.features.some(
      (f) => f.kind === 'hole' && f.depth.through && f.face === contour.face && f.places.some((p) => stays(contour, p)),
    );
    if (!screwed) yield { contour, belowMm };
  }
}

/** The cut with a tool that is named. */
function withTool(setup: Setup, name: string, tool: string, context: RuleContext): Fix | undefined {
  const map = setupMap(context, setup);
  const tools = setupMap(context, setup, 'tools');
  const edits = tools
    ? setText(context.tree, tools, name, tool)
    : map && setText(context.tree, map, 'tools', `{ ${name}: ${tool} }`);
  return change(`Cut ${name} with ${tool}`, edits);
}

const sample = (hold: string) => `part: badge
material: aluminium-6061-t6
body: { x: 60, y: 60, z: 8 }
features:
  tie: { kind: hole, face: top, at: { x: center, y: center }, diameter: 8, depth: through }
  outline:
    kind: contour
    face: top
    path: [{ x: 8, y: 8, round: 6 }, { x: 52, y: 8, round: 6 }, { x: 52, y: 52, round: 6 }, { x: 8, y: 52, round: 6 }]
    depth: through
setups:
  first: { up: top, hold: { vise: mill-vise-100, jaws: [left, right], grip: 6, parallels: 26 }, cuts: [tie] }
  second: { up: top, hold: ${hold}, cuts: [outline] }
`;

export const cutFree: Rule = defineRule({
  name: 'hold/cut-free',
  severity: 'error',
  summary: 'A contour that goes right through frees the part from what holds it.',
  why: 'At the end of the cut nothing holds the part. It jumps, is gouged by the turning cutter, and may be thrown.',
  formula:
    'Reported where the jaws share less than 1 mm² after the cut (rule of thumb). Also where no clamp or screw holds the rest. Tabs need a frame of stock on at least half of the outline (rule of thumb). It begins outside the cutter and is `frame` wide. It is a warning where no tool is written and a slimmer one leaves a frame. Where the jaws grip stock outside the part, what they would grip with that cut off before counts too. Stock that reaches below the contour still holds it. Without set-ups it is a hint, where the outline leaves no two opposite faces and no through hole.',
  limits: [
    {
      name: 'frame',
      value: 6,
      unit: 'mm',
      what: 'Width of the frame that must be left beyond the cutter for the tabs.',
      source: 'common practice, no source',
    },
  ],
  bad: sample('{ vise: mill-vise-100, jaws: [left, right], grip: 6, parallels: 26 }'),
  good: sample('{ screws: [tie], to: plate }'),
  mends: 'Move the cut to a later set-up that holds it, or use tabs, or screws through its holes.',
  *find(context): Generator<Freed | Unheld> {
    yield* freed(context);
    yield* unheld(context);
  },
  tell(hit, context) {
    if ('s' in hit) return tellFreed(hit, context);
    const { name, nameSpan } = hit.contour;
    return {
      severity: 'hint',
      message: `Contour ${name} goes right through. It leaves neither two opposite faces for a vise nor a through hole for a screw. Nothing holds the part at the end. Leave tabs.`,
      of: [name],
      span: nameSpan,
      facts: { stock_below_mm: hit.belowMm },
    };
  },
  keep: (hit) =>
    's' in hit
      ? { setup: hit.s.index, of: hit.contour.name, slimmer: hit.frame?.mill && hit.frame.wouldDo?.name }
      : undefined,
  *mend({ setup, of, slimmer }, context): Generator<Fix | undefined> {
    const { part, solid } = context;
    const s = timelineOf(part, solid).setups[setup];
    const contour = part.featureByName.get(of);
    if (!s || contour?.kind !== 'contour') return;
    for (const to of part.setups!.slice(setup + 1))
      if (to.hold?.type === 'vise') yield change(`Cut it in ${to.name}`, moveCut(context, s.setup, to, of));
    if (slimmer) yield withTool(s.setup, of, slimmer, context);
    const cut = s.cuts.find((c) => c.feature === contour);
    if (cut) yield* heldDown({ s, cut, contour }, context);
  },
});

/** tol/as-set-up – a toleranced dimension that the zeros and cuts between its ends do not hold. */

import { FACE_AXIS, type Setup } from '../../model/model';
import {
  addingOf,
  budgetMm,
  type Chained,
  chainsOf,
  ERRORS,
  type Link,
  likelyMm,
  worstMm,
} from '../../process/stackup';
import { dimensioned } from '../../process/stackup/drawn';
import { machineOf } from '../../process/workholding/forces';
import { isFace } from '../../process/workholding/references';
import { setText } from '../../text/edit';
import { writeLength } from '../../text/format';
import { samePlace } from '../../text/tree';
import { setupMap } from '../kit/holds';
import { fact, list } from '../kit/message';
import { moveCut } from '../kit/moves';
import type { Finding, Fix, Rule, RuleContext } from '../kit/rule';
import { baseOf, cutsNamed, setZero } from '../kit/setups';
import { toldAcross } from '../setup/across';
import { linkFacts } from './link-facts';
import { fromFace } from './redatum';

const NAME = 'tol/as-set-up';

interface Loose extends Chained {
  readonly asSetUp: readonly Link[];
}

function* loose(context: RuleContext): Generator<Loose> {
  const { part, tree, solid, shop } = context;
  if (!part.setups) return;
  const adding = addingOf(shop);
  let across: ReadonlySet<unknown> | undefined;
  for (const chained of chainsOf(part, tree, solid, shop)) {
    const { asSetUp, of } = chained;
    if (!asSetUp || budgetMm(asSetUp, adding) <= of.allowedMm + 1e-9) continue;
    // What the process alone does not hold is told by tol/process, of the same grade.
    if (asSetUp.some((l) => l.by === 'process' && l.halfMm > of.allowedMm + 1e-9)) continue;
    // The bar’s own size, which stock/as-supplied tells of.
    if (asSetUp.length === 1 && asSetUp[0]!.by === 'bar' && !isSawn(of.ends, context)) continue;
    if (of.given === 'distance') {
      across ??= new Set([...toldAcross(context)].map((t) => t.value.span));
      if (across.has(of.span)) continue;
    }
    yield { ...chained, asSetUp };
  }
}

function isSawn(ends: readonly string[], { part }: RuleContext): boolean {
  return part.stock.sawn.some((f) => ends.includes(f.name));
}

function findingOf({ of, asSetUp }: Loose, { part, length, shop }: RuleContext): Finding {
  const adding = addingOf(shop);
  const [worst, likely] = [worstMm(asSetUp), likelyMm(asSetUp)];
  const found = asSetUp.filter((l) => l.by === 'zero' || l.by === 'bar');
  const links = list(asSetUp.map((l) => `${l.what} ±${length(l.halfMm)}`));
  const heaviest = asSetUp.reduce((most, l) => (l.halfMm > most.halfMm ? l : most));
  const would =
    heaviest.by === 'bar'
      ? asSetUp.length === 1
        ? `Neither end is cut: that is the bar as bought. Cut one, measured from the other, or allow more.`
        : `Take zero from ${list(of.ends, 'or')} itself, or cut both ends in one set-up: then the bar’s own size drops out.`
      : found.length > 1
        ? `Cut both ends in one set-up, or take zero from ${list(of.ends, 'or')} itself.`
        : found.length === 1
          ? `Find that zero by a finer method, cut both ends in one set-up, or allow more.`
          : `That is what the cutting itself holds; allow more.`;
  return {
    rule: NAME,
    severity: budgetMm(found, adding) > of.allowedMm + 1e-9 ? 'warning' : 'hint',
    message: `From ${of.ends[0]} to ${of.ends[1]} along ${of.axis} ±${length(of.allowedMm)} is allowed. As set up there stand between them ${links}: ±${length(likely)} likely, ±${length(worst)} at worst${adding === 'worst' ? ', which counts here' : ''}. ${would}`,
    of: of.ends.filter((n) => part.featureByName.has(baseOf(n))),
    span: of.span,
    related: [],
    facts: {
      axis: of.axis,
      from: of.ends[0],
      to: of.ends[1],
      allowed_mm: fact(of.allowedMm),
      likely_mm: fact(likely),
      worst_mm: fact(worst),
      judged_by: adding,
      links: asSetUp.length,
      ...linkFacts(asSetUp),
    },
  };
}

const sample = (zero: string) => `part: guide
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 20 }
stock: { form: flat-bar }
features:
  pin: { kind: hole, face: top, at: { left: 20 ±0.06, y: center }, diameter: 6, depth: through }
setups:
  only:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22, stop: right }
    zero: { x: ${zero}, y: back, z: parallels }
    method: edge-finder
    cuts: [pin]
`;

export const asSetUp: Rule = {
  name: NAME,
  severity: 'warning',
  summary: 'A toleranced dimension that the zeros and cuts between its ends do not hold.',
  why: 'A dimension holds by itself only where one set-up cuts both of its ends, or where zero is taken from the end that it starts from. Otherwise its error is that of every step between: how the work was found again, what that was found from, and the bar’s own size where the two ends go back to its two sides.',
  formula:
    'From each end down: its cut ± `cut`, of a hole that a drill or a reamer makes ± `drilled` besides, its set-up’s zero ± how well that is found (`locates` of the machine by the `method`, else with an edge finder; each piece of a batch against the stop by `stop`; on parallels and against the fixed jaw ± `seat` besides), what the zero was taken from, and so on until both meet. What both have in common drops out. `likely_mm` is the root of the sum of squares, `worst_mm` the sum; `judged_by` tells which counts here (`worst-case`). What a mill makes – floors, steps, the body – has what the process holds by the grade of tol/process in place of its bare cuts, and roughness beyond what that grade has. A warning where the finding of zero and the bar alone are over `allowed_mm`, a hint where the cuts make it so. Bars: as stock/as-supplied has them. Where an end, a zero or a bar is not known nothing is said; what setup/across or stock/as-supplied tells is not told twice.',
  limits: ERRORS,
  bad: sample('right'),
  good: sample('left'),
  mends:
    'The place dimensioned from the face that zero is taken from; zero from the end that it is dimensioned from; both ends cut in one set-up; a finer method; the tolerance as wide as the chain likely is.',
  *find(context) {
    for (const found of loose(context)) yield findingOf(found, context);
  },
  *mend(finding, context): Generator<Fix> {
    const found = [...loose(context)].find((l) => samePlace(l.of.span, finding.span));
    if (!found) return;
    yield* byZero(found, context);
    yield* byDatum(found, context);
    yield* together(found, context);
    yield* byMethod(found, context);
    yield* byAllowing(found, context);
  },
};

function setupOf(name: string, context: RuleContext): Setup | undefined {
  const cut = cutsNamed(baseOf(name), context).at(-1);
  return cut && context.part.setups?.[cut.setup];
}

/** Zero of the one end's set-up from the other end, where that is a face. */
function* byZero({ of }: Loose, context: RuleContext): Generator<Fix> {
  for (const [from, to] of [of.ends, [...of.ends].reverse()] as [string, string][]) {
    const setup = setupOf(to, context);
    if (!setup || !isFace(from) || setup.zero[of.axis]?.name === from) continue;
    const edits = setZero(context, setup, of.axis, from);
    if (edits) yield { title: `Take ${of.axis} from ${from} in ${setup.name}`, safe: false, edits };
  }
}

/** The place from the face that its set-up's zero is at. */
function* byDatum({ of }: Loose, context: RuleContext): Generator<Fix> {
  const { part, tree } = context;
  if (of.given !== 'at') return;
  const name = of.ends[1];
  const zero = setupOf(name, context)?.zero[of.axis]?.name;
  const now = dimensioned(name, of.axis, part, tree);
  if (!isFace(zero) || FACE_AXIS[zero].axis !== of.axis || !now) return;
  const edits = fromFace(now, zero, part);
  if (edits) yield { title: `Dimension ${name} from ${zero}, where zero is, at the same place`, safe: false, edits };
}

/** Both ends cut in one set-up. */
function* together({ of }: Loose, context: RuleContext): Generator<Fix> {
  const [a, b] = of.ends.map((name) => setupOf(name, context));
  if (!a || !b || a === b) return;
  for (const [name, from, to] of [[of.ends[1], b, a] as const, [of.ends[0], a, b] as const]) {
    const edits = moveCut(context, from, to, baseOf(name));
    if (edits) yield { title: `Cut ${name} in ${to.name}`, safe: false, edits };
  }
}

function* byMethod({ of }: Loose, context: RuleContext): Generator<Fix> {
  const { shop, tree } = context;
  const setups = [...new Set(of.ends.map((name) => setupOf(name, context)))].filter((s) => s !== undefined);
  const edits = setups.flatMap((setup) => {
    const ways = Object.entries(machineOf(setup, shop)?.locates ?? {}).filter(([way]) => way !== 'stop');
    const finest = ways.sort((a, b) => a[1] - b[1])[0]?.[0];
    const map = setupMap(context, setup);
    return finest && map && setup.method?.name !== finest ? setText(tree, map, 'method', finest) : [];
  });
  if (edits.length > 0) yield { title: 'Find zero by the finest method on hand', safe: false, edits };
}

/** The tolerance as wide as the chain likely is; ± only, other limits say which side matters. */
function* byAllowing({ of, asSetUp }: Loose, { part, shop }: RuleContext): Generator<Fix> {
  const written = /±\s*[\d.]+\s*$/.exec(of.text);
  if (!written) return;
  const wide = `±${writeLength(budgetMm(asSetUp, addingOf(shop)), part.units, 'up')}`;
  const newText = `${of.text.slice(0, written.index)}${wide}`;
  yield {
    title: `Allow ${wide}, what ${addingOf(shop) === 'worst' ? 'it is at worst' : 'is likely'} as set up`,
    safe: false,
    edits: [{ span: of.span, newText }],
  };
}

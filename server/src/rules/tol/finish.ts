/** tol/finish – a roughness that what cuts the feature does not leave. */

import type { Feature } from '../../model/model';
import { type Bore, makersOf } from '../../process/cutters';
import { operationsOf } from '../../process/operations';
import { FINISH, finishSetting } from '../../process/operations/finish-feed';
import { type Surface, surfacesOf } from '../../process/tolerances/finish';
import { processAbility } from '../../tables/process';
import { ROUNDING } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { capital, fact, subjectOf, trimmed } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';

type Process = 'drilling' | 'reaming' | 'boring' | 'fine-milling';
const SHOWN: Readonly<Record<Process, string>> = {
  drilling: 'drilling',
  reaming: 'reaming',
  boring: 'boring',
  'fine-milling': 'fine milling',
};

/** The steps of roughness that drawings mostly have (ISO 1302), µm. */
const SERIES = [0.05, 0.1, 0.2, 0.4, 0.8, 1.6, 3.2, 6.3, 12.5];
/** A hole without a tolerance is still made by a tool of about its size. */
const ABOUT_MM = 0.05;

/** By what the feature is cut in the end; of a plain hole by the finest on hand of its size: a reamer is at hand for the asking. */
function processOf(feature: Feature, context: RuleContext): Process {
  const { part, solid, shop } = context;
  if (feature.kind !== 'hole') return 'fine-milling';
  const last = operationsOf(feature, { part, solid, shop }).findLast((o) =>
    ['drill', 'ream', 'bore', 'finish'].includes(o.does),
  );
  const found = new Set<string>([last?.does ?? 'drill']);
  const { mm, tolerance } = feature.diameter;
  const bore: Bore = { nominalMm: mm, fromMm: mm - ABOUT_MM, toMm: mm + ABOUT_MM };
  if (!tolerance) for (const t of makersOf(shop, bore)) found.add(DOES[t.kind] ?? '');
  if (found.has('bore')) return 'boring';
  if (found.has('finish')) return 'fine-milling';
  return found.has('ream') ? 'reaming' : 'drilling';
}
const DOES: Readonly<Record<string, string>> = { reamer: 'ream', 'boring-head': 'bore' };

/** The roughest of its surfaces by what is asked, where the plan’s own feed leaves more. */
function tooCoarse(feature: Feature, raUm: number, context: RuleContext): Surface | undefined {
  return surfacesOf(feature, context)
    .filter((s) => s.raUm > raUm * (1 + ROUNDING))
    .sort((a, b) => b.raUm - a.raUm)[0];
}

interface Rough {
  readonly feature: Feature;
  readonly raUm: number;
  /** What cuts it, and from how fine to how coarse that leaves it, where it cannot be as fine as asked. */
  readonly beyond: { readonly process: Process; readonly finestUm: number; readonly usualUm: number } | undefined;
  readonly surface: Surface | undefined;
}

function* rough(context: RuleContext): Generator<Rough> {
  for (const feature of context.part.features) {
    if (!feature.finish) continue;
    const { raUm } = feature.finish;
    const process = processOf(feature, context);
    const range = processAbility(process)?.raUm;
    const surface = tooCoarse(feature, raUm, context);
    const beyond = range && raUm < range[0] - ROUNDING ? { process, finestUm: range[0], usualUm: range[1] } : undefined;
    if (beyond || surface) yield { feature, raUm, beyond, surface };
  }
}

function tell({ feature, raUm, beyond, surface }: Rough, context: RuleContext): Told {
  if (!beyond) return tellCoarse(feature, surface!, raUm, context);
  const { process, finestUm, usualUm } = beyond;
  return {
    message: `${subjectOf(context.part, feature.name)} has a roughness of Ra ${raUm} µm. It is cut by ${SHOWN[process]}, which leaves Ra ${finestUm} to ${usualUm} µm. Make it Ra ${finestUm}, or have it ${feature.kind === 'hole' ? 'honed or ground' : 'ground, lapped or polished'}.`,
    has: `Ra ${finestUm} µm`,
    needs: `Ra ${raUm} µm`,
    of: [feature.name],
    span: feature.finish!.span,
    facts: {
      ra_um: raUm,
      finest_um: finestUm,
      usual_um: usualUm,
      process: SHOWN[process],
      left_um: surface?.raUm,
    },
  };
}

function tellCoarse(feature: Feature, s: Surface, raUm: number, { length, shop }: RuleContext): Told {
  const reaching = s.feedFor(raUm);
  const rubs = reaching < s.leastFeedMm - ROUNDING;
  const per = s.per === 'pass' ? 'from pass to pass' : `a ${s.per}`;
  const would = rubs
    ? `Use a cutter with a corner radius: the feed that reaches it, ${length(reaching)}, rubs instead of cutting.`
    : `Use a feed of ${length(reaching)}; the cut then needs ${trimmed(s.feedMm / reaching, 1)} times the time.`;
  return {
    severity: 'hint',
    message: `${capital(feature.kind)} ${feature.name} has a roughness of Ra ${raUm} µm. Tool ${s.tool} leaves its ${s.what} at about Ra ${trimmed(s.raUm, 2)} µm, with a feed of ${length(s.feedMm)} ${per}. ${would}`,
    of: [feature.name],
    span: feature.finish!.span,
    facts: {
      ra_um: raUm,
      left_um: s.raUm,
      geometric_um: s.geometricRaUm,
      ridge_um: s.ridgeMm * 1000,
      real: finishSetting('real', shop),
      surface: s.what,
      tool: s.tool,
      by: s.formula,
      feed_mm: s.feedMm,
      reaching_mm: reaching,
      least_mm: s.leastFeedMm,
    },
  };
}

const BAD = `part: slide
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
features:
  way: { kind: slot, face: top, ends: [{ x: -5, y: center }, { x: 65, y: center }], width: 12, depth: 5, finish: 0.2 }
`;

export const finish: Rule = defineRule({
  name: 'tol/finish',
  severity: 'warning',
  summary: 'A roughness is finer than the cut or its feed leaves.',
  why: 'A mill leaves the marks of its teeth, a drill those of its margins. Finer than that is ground, honed, lapped or polished: another process and another machine. Few surfaces need it.',
  formula:
    'Ra is compared with the finest that the process usually leaves. A hole is bored, reamed, milled or drilled, as its cuts or the shop say; all else is milled. The table of processes is a public table and Machinery’s Handbook, from memory. Then Ra is compared with what the plan’s feed leaves (a hint). Ridges are f² / 8r under a corner radius and f / (tan ψ + cot λ) under a sharp one. They are f² / 4D along a side, and R − √(R² − s²/4) between passes of a ball (Ghosh & Mallik, ex. 4.24, and geometry). Ra is a quarter of the ridge, times `real`. The message says which feed gives the Ra that is written.',
  limits: FINISH,
  bad: BAD,
  good: edited(BAD, ['finish: 0.2', 'finish: 3.2']),
  mends: 'Use the finest roughness that the process leaves, or the next step that the plan’s feed leaves.',
  find: rough,
  tell,
  keep: ({ feature, beyond, surface }) => ({
    span: feature.finish!.span,
    // The finest that the process leaves, then what the plan’s own feed does.
    steps: [beyond?.finestUm, surface && SERIES.find((step) => step >= fact(surface.raUm))],
  }),
  *mend({ span, steps }) {
    for (const ra of new Set(steps))
      if (ra !== undefined) yield change(`Make it Ra ${ra}`, { span, newText: String(ra) });
  },
});

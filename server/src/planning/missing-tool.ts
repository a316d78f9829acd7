/**
 * The one tool, not on hand, that would cure most: made up from what the findings say is lacking, put into the shop, and the
 * part judged again. What is told was tried.
 */

import { featureNameOf } from '../model/member-name';
import type { Shop, Tool } from '../model/shop-model';
import { checkPart } from '../rules/check';
import type { CheckedPart } from '../rules/checked-part';
import type { Finding } from '../rules/kit/rule';
import type { Span } from '../text/tree';

interface Cure {
  /** `end mill of 3 mm, reaching 20 mm` */
  readonly what: string;
  readonly tool: Tool;
  /** Findings that are gone with it. */
  readonly cured: readonly Finding[];
}

const NOWHERE: Span = { block: 'a tool to buy', from: 0, to: 0 };
/** More candidates are not tried: each judges the whole part anew. */
const MOST_TRIED = 8;
/** Common diameters of end mills, mm. */
const MILLS = [1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20];

/** Undefined where no single tool cures anything. */
export function missingTool(checked: CheckedPart): Cure | undefined {
  const cure = missingToolOf([checked]);
  return cure && { what: cure.what, tool: cure.tool, cured: cure.cured.flatMap((c) => c.findings) };
}

interface CureOfAll {
  readonly what: string;
  readonly tool: Tool;
  /** Of each part that it cures something of, by its place in the list. */
  readonly cured: readonly { readonly of: number; readonly findings: readonly Finding[] }[];
}

/** The one tool for several parts of one shop; those of another shop than the first, or without findings, are left out. */
export function missingToolOf(all: readonly CheckedPart[]): CureOfAll | undefined {
  const own = all.map((checked, of) => ({ checked, of })).filter(({ checked }) => checked.shop === all[0]?.shop);
  const faulty = own.filter(({ checked }) => checked.findings.length > 0);
  let best: (CureOfAll & { readonly weight: number }) | undefined;
  for (const { tool, what } of candidates(faulty.map((f) => f.checked)).slice(0, MOST_TRIED)) {
    const tried = faulty.map(({ checked, of }) => ({ of, ...withTool(checked, tool) }));
    // One that brings as much as it takes is no cure.
    const weight = tried.reduce((sum, t) => sum + t.weight, 0);
    const cured = tried.flatMap(({ of, findings }) => (findings.length > 0 ? [{ of, findings }] : []));
    if (weight > (best?.weight ?? 0)) best = { tool, what, cured, weight };
  }
  return best;
}

/** What is gone with a tool, and how much less is wrong. */
function withTool(
  checked: CheckedPart,
  tool: Tool,
): { readonly findings: readonly Finding[]; readonly weight: number } {
  const before = checked.findings;
  const shop: Shop = { ...checked.shop, tools: [...checked.shop.tools, tool] };
  const after = checkPart(checked.tree.text, shop, undefined, checked.tree.others).findings;
  const left = new Map<string, number>();
  for (const f of after) left.set(keyOf(f), (left.get(keyOf(f)) ?? 0) + 1);
  const findings = before.filter((f) => {
    const n = left.get(keyOf(f)) ?? 0;
    if (n > 0) left.set(keyOf(f), n - 1);
    return n === 0;
  });
  return { findings, weight: weightOf(before) - weightOf(after) };
}

/** An error keeps the part from being made; a hint only costs. */
const WEIGHT = { error: 4, warning: 2, hint: 1 } as const;
function weightOf(findings: readonly Finding[]): number {
  return findings.reduce((sum, f) => sum + WEIGHT[f.severity], 0);
}

function keyOf(f: Finding): string {
  return `${f.rule} ${f.of.join()} ${f.span.block} ${f.span.from}`;
}

interface Candidate {
  readonly what: string;
  readonly tool: Tool;
}

/** By what the findings' facts say; several findings may ask for the same tool, which then comes first. */
function candidates(all: readonly CheckedPart[]): readonly Candidate[] {
  const asked = new Map<string, { candidate: Candidate; times: number }>();
  for (const { findings, shop, part } of all) {
    for (const candidate of findings.flatMap((finding) => candidatesFor(finding, shop, part))) {
      const known = asked.get(candidate.what);
      asked.set(candidate.what, { candidate, times: (known?.times ?? 0) + 1 });
    }
  }
  return [...asked.values()].sort((a, b) => b.times - a.times).map((a) => a.candidate);
}

function candidatesFor(finding: Finding, shop: Shop, part: CheckedPart['part']): readonly Candidate[] {
  const { facts } = finding;
  const hole = part?.featureByName.get(featureNameOf(finding.of[0] ?? ''));
  // A hole wants a drill of its size before anything else.
  if (finding.rule === 'access/reach' && hole?.kind === 'hole' && typeof facts.needed_mm === 'number') {
    const own = drill(hole.diameter.mm, facts.needed_mm);
    if (own) return [own];
  }
  const had = shop.tools.find((t) => t.name === facts.tool);
  const longer =
    finding.rule === 'access/reach' && had?.kind === 'end-mill' && typeof facts.needed_mm === 'number'
      ? endMill(had.diameterMm, facts.needed_mm)
      : undefined;
  return [longer, candidateFor(finding, shop)].flatMap((c) => c ?? []);
}

function candidateFor({ rule, facts }: Finding, shop: Shop): Candidate | undefined {
  const number = (key: string) => (typeof facts[key] === 'number' ? (facts[key] as number) : undefined);
  switch (rule) {
    case 'corner/inside-radius':
      return endMill(2 * (number('radius_mm') ?? 0), number('depth_mm') ?? 0);
    case 'access/reach':
      return endMill(number('gap_mm') ?? 6, number('needed_mm') ?? 0);
    case 'hole/odd-diameter':
      return drill(number('diameter_mm') ?? 0);
    case 'tol/no-reamer': {
      const d = number('diameter_mm');
      if (d === undefined) return undefined;
      const tool: Tool = {
        name: `reamer-${round(d)}`,
        span: NOWHERE,
        kind: 'reamer',
        diameterMm: d,
        material: 'hss',
        fit: 'H7',
        reachMm: 8 * d,
      };
      return { what: `reamer of ${round(d)} mm H7`, tool };
    }
    case 'thread/no-tap': {
      const thread = typeof facts.thread === 'string' ? facts.thread : undefined;
      if (!thread) return undefined;
      const major = Number(/[\d.]+/.exec(thread)?.[0] ?? 0);
      const reachMm = Math.max(10, 4 * major, ...shop.tools.filter((t) => t.kind === 'tap').map((t) => t.reachMm));
      const tool: Tool = {
        name: `tap-${thread.toLowerCase()}`,
        span: NOWHERE,
        kind: 'tap',
        diameterMm: major,
        material: 'hss',
        thread,
        chamfer: 'plug',
        reachMm,
      };
      return { what: `${thread} tap`, tool };
    }
    default:
      return undefined;
  }
}

/** The largest common end mill that goes into a gap, as long as is needed. */
function endMill(gapMm: number, reachMm: number): Candidate | undefined {
  const diameterMm = [...MILLS].reverse().find((d) => d <= gapMm + 0.01);
  if (!diameterMm || !(reachMm > 0)) return undefined;
  const reach = Math.ceil(reachMm + 1);
  // Beyond twelve diameters nobody sells one.
  if (reach > 12 * diameterMm) return undefined;
  const tool: Tool = {
    name: `em-${diameterMm}-${reach}`,
    span: NOWHERE,
    kind: 'end-mill',
    diameterMm,
    material: 'carbide',
    flutes: 3,
    fluteLengthMm: Math.min(reach, 3 * diameterMm),
    reachMm: reach,
    shankMm: Math.max(6, diameterMm),
    cornerRadiusMm: 0,
  };
  return { what: `end mill of ${diameterMm} mm reaching ${reach} mm`, tool };
}

function drill(diameterMm: number, reachMm = 0): Candidate | undefined {
  // Jobber drills are some ten diameters long in the flutes, long series up to twenty. Common practice, no source.
  if (!(diameterMm > 0) || reachMm > 20 * diameterMm) return undefined;
  const fluteLengthMm = Math.max(10 * diameterMm, Math.ceil(reachMm + 1));
  const long = fluteLengthMm > 10 * diameterMm ? ` with flutes of ${round(fluteLengthMm)} mm` : '';
  const tool: Tool = {
    name: `dr-${round(diameterMm)}`,
    span: NOWHERE,
    kind: 'drill',
    diameterMm,
    material: 'hss',
    fluteLengthMm,
    pointDeg: 118,
  };
  return { what: `drill of ${round(diameterMm)} mm${long}`, tool };
}

function round(mm: number): number {
  return Number(mm.toFixed(2));
}

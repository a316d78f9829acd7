/**
 * A part to start from: of a piece that is at hand, clean by our own rules in the shop that judges it, and planned. What
 * that shop cannot make of a template is left out, feature by feature, and said.
 */

import type { Shop } from '../../model/shop-model';
import { writePlan } from '../../planning/keep';
import { planFor } from '../../planning/plan-cache';
import { checkPart, fixesFor } from '../../rules/check';
import type { CheckedPart } from '../../rules/checked-part';
import { applyEdits, locateEdits } from '../../text/edit';
import { scalarText } from '../../text/write';
import type { AtHand } from './at-hand';
import { blockOf, type Outside, outsideOf } from './outside';
import type { StarterAnswer, Template } from './protocol';
import { type Sketch, sketchesOf } from './templates';

export interface StarterTold {
  readonly name: string;
  readonly template: Template;
  /** Left out where the shop has no bars: then the part is cut from a block of its own size. */
  readonly piece?: AtHand;
}

/** Where nothing is at hand. */
const ANY_MATERIAL = 'aluminium-6061-t6';

export function startedPart(told: StarterTold, shop: Shop): StarterAnswer {
  const { piece } = told;
  const outside = (piece && outsideOf(piece, shop.units)) ?? blockOf(shop.units);
  const all = sketchesOf(told.template, outside, shop);
  let kept = all;
  for (;;) {
    const sound = mended(checkPart(textOf(told.name, piece?.material ?? ANY_MATERIAL, outside, kept), shop));
    const whole = sound.findings.length === 0 ? planned(sound) : undefined;
    const after = whole ? mended(whole) : sound;
    const isDone = after.part.setups !== undefined || shop.vises.length === 0;
    if ((after.findings.length === 0 && isDone) || kept.length === 0)
      return {
        newText: after.tree.text,
        left: all.filter((s) => !kept.some((k) => k.name === s.name)).map((s) => s.name),
        isPlanned: after.part.setups !== undefined,
      };
    kept = without(kept, after);
  }
}

/** Fixes are taken one after the other, so many at most. */
const MOST_FIXES = 6;

/** With the fixes that our own rules offer, as far as each leaves less to say and every feature there. */
function mended(checked: CheckedPart): CheckedPart {
  let now = checked;
  for (let i = 0; i < MOST_FIXES && now.findings.length > 0; i++) {
    const next = betterThan(now);
    if (!next) break;
    now = next;
  }
  return now;
}

function betterThan(checked: CheckedPart): CheckedPart | undefined {
  const { findings, part, tree, shop } = checked;
  for (const finding of findings)
    for (const { edits } of fixesFor(checked, finding)) {
      const next = checkPart(applyEdits(tree.text, locateEdits(tree, edits)), shop);
      if (next.findings.length < findings.length && next.part.features.length === part.features.length) return next;
    }
  return undefined;
}

/** With its plan written; undefined where there is none. */
function planned(checked: CheckedPart): CheckedPart | undefined {
  const plan = planFor(checked);
  const written = plan && writePlan(plan, checked);
  return written && !written.kept ? checkPart(written.text, checked.shop) : undefined;
}

/** Less what findings are of, and what starts on its floor; else less the last. */
function without(kept: readonly Sketch[], { findings, part }: CheckedPart): readonly Sketch[] {
  const named = new Set(findings.flatMap((f) => f.of.map((name) => name.replace(/\[.*$/, ''))));
  const gone = kept.filter((s) => named.has(s.name)).map((s) => s.name);
  const last = gone.length > 0 ? gone : kept.slice(-1).map((s) => s.name);
  const goes = (s: Sketch) => last.includes(s.name) || last.includes(part.featureByName.get(s.name)?.from?.name ?? '');
  if (kept.some((s) => last.includes(s.name) && s.instead))
    return kept.map((s) => (last.includes(s.name) && s.instead ? s.instead : s));
  return kept.filter((s) => !goes(s));
}

function textOf(name: string, material: string, { units, lines }: Outside, features: readonly Sketch[]): string {
  return [
    '# A part for Scribeline. Every length is in `units`. The origin is the left-front-bottom corner of the finished',
    '# body: x to the right, y to the back, z up. Text after a # is a remark.',
    `part: ${scalarText(name)}`,
    `title: ${scalarText(name.replaceAll('-', ' '))}`,
    'revision: A',
    `units: ${units}`,
    `material: ${scalarText(material)} # its limits and speeds are the table’s`,
    'quantity: 1 # how many are made',
    'tolerance: ISO 2768-m # for every dimension without a tolerance of its own',
    '',
    ...lines,
    '',
    ...(features.length > 0 ? ['features:', ...features.flatMap((f) => f.lines.map((line) => `  ${line}`))] : []),
    '',
  ].join('\n');
}

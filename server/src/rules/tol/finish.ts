/** tol/finish – a roughness that what cuts the feature does not leave. */
import { processAbility } from '../../reference/process';
import type { Feature } from '../../spec/model';
import { fact } from '../message';
import type { Finding, Fix, Rule, RuleContext } from '../rule';

const NAME = 'tol/finish';

/** By what the feature is cut in the end. */
function processOf(feature: Feature, { shop }: RuleContext): { name: string; shown: string } {
  if (feature.kind !== 'hole') return { name: 'fine-milling', shown: 'fine milling' };
  const { mm } = feature.diameter;
  if (shop.tools.some((t) => t.kind === 'reamer' && Math.abs(t.diameterMm - mm) < 0.01))
    return { name: 'reaming', shown: 'reaming' };
  if (shop.tools.some((t) => t.kind === 'boring-head' && mm >= t.diameterMm && mm <= t.largestMm))
    return { name: 'boring', shown: 'boring' };
  return { name: 'drilling', shown: 'drilling' };
}

export const finish: Rule = {
  name: NAME,
  severity: 'warning',
  summary: 'A roughness finer than what cuts the feature leaves.',
  why: 'A mill leaves the marks of its teeth, a drill those of its margins. Finer than that is ground, honed, lapped or polished: another process, another machine, and mostly for a surface that nothing slides on.',
  formula:
    'Ra asked for, against the finest that the process usually leaves: a hole is reamed, bored or drilled by what the shop has for its size, all else is milled. Theoretical marks of a cutter: Rt = f² / 8r under a corner, f² / 4D along a side; what is measured is commonly one and a half to three times as much. Table of processes: a public table and Machinery’s Handbook, from memory.',
  limits: [],
  bad: `part: slide
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
features:
  way: { kind: slot, face: top, ends: [{ x: -5, y: center }, { x: 65, y: center }], width: 12, depth: 5, finish: 0.2 }
`,
  good: `part: slide
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
features:
  way: { kind: slot, face: top, ends: [{ x: -5, y: center }, { x: 65, y: center }], width: 12, depth: 5, finish: 0.8 }
`,
  mends: 'The finest roughness that the process leaves.',
  *find(context): Generator<Finding> {
    for (const feature of context.part.features) {
      if (!feature.finish) continue;
      const process = processOf(feature, context);
      const range = processAbility(process.name)?.raUm;
      if (!range || feature.finish.raUm >= range[0] - 1e-9) continue;
      yield {
        rule: NAME,
        severity: 'warning',
        message: `Ra ${feature.finish.raUm} µm is finer than ${process.shown} leaves, ${range[0]} to ${range[1]} µm. ${feature.kind === 'hole' ? 'It would be honed or ground' : 'It would be ground, lapped or polished'}; Ra ${range[0]} can be had.`,
        of: [feature.name],
        span: feature.finish.span,
        related: [],
        facts: { ra_um: fact(feature.finish.raUm), finest_um: range[0], usual_um: range[1], process: process.shown },
      };
    }
  },
  *mend(finding): Generator<Fix> {
    const { finest_um } = finding.facts;
    yield {
      title: `Ask for Ra ${finest_um}`,
      safe: false,
      edits: [{ span: finding.span, newText: String(finest_um) }],
    };
  },
};

/** A bench with few tools, and parts planned on it: written, read again, and cut by the simulator, which shares no code with the planner. */
import assert from 'node:assert/strict';
import { type Plan, planOf } from '../../server/src/planning/plan';
import { writeSetups } from '../../server/src/planning/write';
import { checkPart, checkShop } from '../../server/src/rules/check';
import type { CheckedPart } from '../../server/src/rules/checked-part';
import { applyEdits, locateEdits } from '../../server/src/text/edit';
import { simulate } from '../simulator/simulate';

export const SHOP = checkShop(`shop: bench
machines: { mill: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 1.5 kW, torque: 14 N·m }, feed: 3000 mm/min, coolant: flood } }
vises: { vise: { jaw: { width: 60, height: 32 }, opens: 90, force: 15 kN } }
parallels: [10, 14, 18, 22, 26]
holders: { collet: { diameter: 30, length: 50 }, chuck: { diameter: 36, length: 60 } }
tools:
  em-8: { kind: end-mill, diameter: 8, flutes: 3, flute-length: 26, reach: 34, shank: 8, material: carbide, holder: collet, stickout: 40 }
  em-16: { kind: end-mill, diameter: 16, flutes: 3, flute-length: 36, reach: 45, shank: 16, material: carbide, holder: collet, stickout: 50 }
  fm-50: { kind: face-mill, diameter: 50, flutes: 4, flute-length: 8, reach: 40, shank: 22, holder: collet, stickout: 45 }
  sd-6: { kind: spot-drill, diameter: 6, flute-length: 12, holder: chuck, stickout: 40 }
  dr-5: { kind: drill, diameter: 5, flute-length: 52, holder: chuck, stickout: 60 }
  dr-6: { kind: drill, diameter: 6, flute-length: 57, holder: chuck, stickout: 66 }
`).shop;

export const part = (body: string, features: string, stock = '') =>
  `part: mount\nmaterial: aluminium-6061-t6\nbody: ${body}\n${stock}features:\n${features}`;

/** Planned, written, and read again: no error, nothing about set-ups but hints, and it comes out right when it is cut. */
export function made(text: string, shop = SHOP, simulated = true): { plan: Plan; again: CheckedPart; written: string } {
  const checked = checkPart(text, shop);
  const plan = planOf(checked)!;
  assert.deepEqual(
    plan.uncut.map((l) => `${l.item.name}: ${l.why?.message}`),
    [],
  );
  const setups = plan.setups.map((s) => s.setup);
  const written = applyEdits(text, locateEdits(checked.tree, writeSetups(setups, checked.part, checked.tree)));
  const again = checkPart(written, shop);
  assert.deepEqual(
    again.findings.filter((f) => f.severity === 'error' || f.rule.startsWith('form/')).map((f) => f.message),
    [],
    written,
  );
  if (!simulated) return { plan, again, written };
  const report = simulate(again.part, shop, { fineMm: 0.6 });
  assert.ok(report.right, `${written}\n${JSON.stringify(report.setups)}`);
  return { plan, again, written };
}

export const cutsOf = ({ plan }: { plan: Plan }) =>
  plan.setups.map(({ setup }) => [setup.up!.name, setup.cuts.map((c) => (c.depth ? `${c.name} ${c.depth}` : c.name))]);

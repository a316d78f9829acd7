/**
 * Which of several machines a plan is for: the shop's first, unless it does not take the material or cannot do what the plan
 * asks (travel, load, speed) and another can. Then each set-up names the other.
 */
import { memo } from '../memo';
import { materialOf } from '../model/material-of';
import type { Part } from '../model/model';
import type { Machine, Shop } from '../model/shop-model';
import type { ReadPart } from '../rules/judging';
import type { Finding } from '../rules/kit/rule';
import { RULES } from '../rules/registry';
import { runOne } from '../rules/run';
import type { MaterialFamily } from '../tables/materials.data';
import { onlyMachine } from './keep-written';
import type { Plan } from './planned';
import { timeOf } from './times';

const OF_MACHINES = RULES.filter((r) => r.name.startsWith('machine/'));

/**
 * The same shop with a machine first that takes the material, so that forces and times are that one's while it is planned: the
 * one that the text names in each of its set-ups, or else the first.
 */
export function whereTaken(checked: ReadPart): ReadPart {
  const { part, shop } = checked;
  const family = materialOf(part)?.family;
  const there = family && shop.machines.length > 1 ? takingFirst(shop, family, onlyMachine(part)) : shop;
  return there === shop ? checked : { part, shop: there, solid: checked.solid, tree: checked.tree };
}

const takingFirst = memo(
  (shop: Shop, family: MaterialFamily, named: string | undefined): Shop => {
    const takes = ({ takes }: Machine) => !takes || takes.includes(family);
    const able = shop.machines.find((m) => m.name === named && takes(m)) ?? shop.machines.find(takes);
    if (!able || able === shop.machines[0]) return shop;
    return { ...shop, machines: [able, ...shop.machines.filter((m) => m !== able)] };
  },
  { size: 8 },
);

/** What a machine cannot do of a plan: travel, load, revolutions, the material. */
export function refusedOn(machine: Machine, plan: Plan, { part, shop, solid, tree }: ReadPart): readonly Finding[] {
  const setups = on(machine, plan, part);
  const there: Part = { ...part, setups };
  return OF_MACHINES.flatMap((rule) => runOne(rule, { part: there, shop, solid, tree })).filter(
    (f) => f.severity === 'error',
  );
}

export function on({ name }: Machine, { setups }: Plan, { root }: Part) {
  return setups.map((s) => ({ ...s.setup, machine: { name, span: root } }));
}

/** With the machine named where it is not the first of the shop as it is written. `there`: as it was planned. */
export function withMachine(plan: Plan, checked: ReadPart, there: ReadPart): Plan {
  const [usual] = checked.shop.machines;
  if (checked.shop.machines.length < 2 || plan.setups.length === 0 || plan.setups.some((s) => s.setup.machine))
    return plan;
  const [planned] = there.shop.machines;
  const machine = there.shop.machines.find((m) => refusedOn(m, plan, there).length === 0) ?? planned;
  // Where the text names one that cannot, the usual one is named too.
  const wished = onlyMachine(checked.part) ?? usual?.name;
  if (!machine || (machine === usual && wished === usual?.name)) return plan;
  const setups = on(machine, plan, checked.part);
  return {
    ...plan,
    time: timeOf(setups, { ...checked, part: { ...checked.part, setups } }),
    setups: plan.setups.map((s, i) => ({ ...s, setup: setups[i]! })),
  };
}

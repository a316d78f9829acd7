/** What the answer rests on, as data: every cut with its numbers and formulae, defaults that nobody wrote, limits in force. */

import { materialOf } from '../model/material-of';
import { valuesOf } from '../model/values';
import { machineFor } from '../process/operations/machine';
import type { Priced } from '../process/operations/priced';
import type { CheckedPart } from '../rules/checked-part';
import { RULES } from '../rules/registry';
import { formulaeOf } from './cut-formulae';
import { pricedCuts } from './cuts';
import { facingsOf } from './facings';

/** Numbers by name, the unit in each key: `feed_mm_per_min`. */
type Numbers = Readonly<Record<string, number | string | boolean | readonly number[]>>;

export interface FactsJson {
  readonly cuts: readonly {
    readonly feature: string;
    readonly setup?: string;
    readonly machine: string | null;
    readonly does: string;
    readonly tool: string | null;
    /** What no tool on hand does, in words. */
    readonly lacks?: string;
    readonly numbers: Numbers;
    readonly formulae: readonly { readonly what: string; readonly how: string; readonly source: string }[];
  }[];
  /** Left out in the part's text. */
  readonly defaults: readonly {
    readonly of: string;
    readonly value: number;
    readonly unit: 'mm' | 'deg';
    readonly why: string;
  }[];
  /** Left out in the shop's. */
  readonly shop_defaults: readonly {
    readonly of: string;
    readonly field: string;
    readonly value: string;
    readonly why: string;
  }[];
  readonly limits: readonly {
    readonly rule: string;
    readonly limit: string;
    readonly value: number;
    readonly unit: string;
    readonly source: string;
  }[];
}

export function factsJson(checked: CheckedPart): FactsJson {
  const { part, shop } = checked;
  return {
    cuts: cutsOf(checked),
    defaults: part.features.flatMap((feature) =>
      valuesOf(feature).flatMap(({ path, value, type }) =>
        value.from === undefined
          ? []
          : [
              {
                of: `${feature.name}.${path.join('.')}`,
                value: round(type === 'length' ? value.mm : value.deg),
                unit: type === 'length' ? ('mm' as const) : ('deg' as const),
                why: value.from,
              },
            ],
      ),
    ),
    shop_defaults: shop.assumed.map(({ of, field, text, why }) => ({ of, field, value: text, why })),
    limits: RULES.flatMap((rule) =>
      rule.limits.map(({ name, value, unit, source }) => {
        const set = shop.limits.get(rule.name)?.get(name);
        return {
          rule: rule.name,
          limit: name,
          value: set ?? value,
          unit,
          source: set === undefined ? source : `set in ${shop.name}`,
        };
      }),
    ),
  };
}

function cutsOf(checked: CheckedPart): FactsJson['cuts'] {
  const { part, shop } = checked;
  const material = materialOf(part);
  const one = (feature: string, p: Priced, machine: ReturnType<typeof machineFor>, setup?: string) => {
    const { operation: o } = p;
    return {
      feature,
      ...(setup !== undefined && { setup }),
      machine: machine?.name ?? null,
      does: o.does,
      tool: o.does === 'missing' ? null : o.tool.name,
      ...(o.does === 'missing' && { lacks: o.wanted }),
      numbers: { ...numbersOf(o), ...numbersOf(p), ...numbersOf(p.conditions ?? {}) },
      formulae:
        material && machine
          ? formulaeOf(p, material, machine).map(({ what, how, source }) => ({ what, how, source }))
          : [],
    };
  };
  return [
    ...part.features.flatMap((feature) =>
      pricedCuts(feature, checked).map((p) => one(feature.name, p, machineFor(part, shop, feature.name))),
    ),
    ...facingsOf(checked).flatMap(({ face, setup, machine, cuts }) =>
      cuts.map((p) => one(face, p, machine, setup.name)),
    ),
  ];
}

/** Every plain value of a record, its key in small letters; what is a record itself belongs elsewhere. */
function numbersOf(of: object): Numbers {
  const found: Record<string, Numbers[string]> = {};
  for (const [key, value] of Object.entries(of)) {
    if (key === 'does' || key === 'source') continue;
    const name = key.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
    if (typeof value === 'number' && Number.isFinite(value)) found[name] = round(value);
    else if (typeof value === 'boolean' || typeof value === 'string') found[name] = value;
    else if (Array.isArray(value) && value.every((v) => typeof v === 'number' && Number.isFinite(v)))
      found[name] = value.map(round);
    // Of the load what it does: forces and moments.
    else if (key === 'load' && typeof value === 'object' && value !== null) Object.assign(found, numbersOf(value));
  }
  return found;
}

function round(value: number): number {
  return Number(value.toPrecision(6));
}

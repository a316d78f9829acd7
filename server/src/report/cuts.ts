/**
 * A feature's cuts in words: tool, speed, feed, force, bending and time, each with what limits it. For the hover, `--facts`
 * and the sheet. Speeds are where to begin, not orders: the sheet and the hover say so, and defer to the shop.
 */

import { materialOf } from '../model/material-of';
import type { Feature, Setup } from '../model/model';
import type { Machine } from '../model/shop-model';
import type { Conditions } from '../process/cutting/conditions';
import { fromOneSide, mayClimb } from '../process/cutting/hands';
import { operationsOf } from '../process/operations';
import { machineFor } from '../process/operations/machine';
import { passedOverOf } from '../process/operations/passed-over';
import { type Priced, priceOf } from '../process/operations/priced';
import type { Operation } from '../process/operations/types';
import { cutOf, type EntryCuts } from '../process/passes/cuts-in-setup';
import { comesCut } from '../process/stock/brought';
import type { ReadPart } from '../rules/judging';
import { MM_PER_INCH } from '../tables/units';
import { formatLength, lengthsIn } from '../text/format';
import { ROUNDING } from '../tolerance';

/** Said once wherever speeds are shown. */
export const WHERE_TO_BEGIN =
  'Speeds and feeds are starting values; tables differ. Follow your shop’s rules and trained staff, and listen to the cut.';

/**
 * Every cut of a feature with what it takes; empty without a known material, a machine, or a cut. Where one written set-up
 * cuts all of it, by what that set-up has: the same as its times and its sheet.
 */
export function pricedCuts(feature: Feature, read: ReadPart): readonly Priced[] {
  const { part, shop } = read;
  const material = materialOf(part);
  const machine = machineFor(part, shop, feature.name);
  if (!material || !machine) return [];
  const steps = stepsHere(feature, read);
  return steps
    ? steps.map(({ priced, operation, minutes }) => priced ?? { operation, minutes })
    : operationsOf(feature, read).map((o) => priceOf(o, material, machine));
}

function stepsHere(feature: Feature, read: ReadPart): EntryCuts['steps'] | undefined {
  const found = (read.part.setups ?? []).flatMap((setup) =>
    setup.cuts.flatMap((entry) => (entry.name === feature.name ? [{ setup, entry }] : [])),
  );
  const [only] = found;
  if (found.length !== 1 || !only || only.entry.depth !== undefined) return undefined;
  return cutOf(only.entry, only.setup, read).steps;
}

interface CutsInSetup {
  readonly setup: Setup;
  readonly machine: Machine;
  readonly cuts: readonly Priced[];
}

/** Of a feature that several set-ups cut: what each of them does of it; empty for every other. */
export function cutsBySetup(feature: Feature, read: ReadPart): readonly CutsInSetup[] {
  const { part, shop } = read;
  const entries = (part.setups ?? []).flatMap((setup) =>
    setup.cuts.flatMap((entry) => (entry.name === feature.name ? [{ setup, entry }] : [])),
  );
  if (entries.length < 2 || !materialOf(part)) return [];
  return entries.flatMap(({ setup, entry }): CutsInSetup[] => {
    const machine = machineFor({ setups: [setup] }, shop, feature.name);
    const { steps } = cutOf(entry, setup, read);
    if (!machine || steps.length === 0) return [];
    return [{ setup, machine, cuts: steps.map(({ priced, operation, minutes }) => priced ?? { operation, minutes }) }];
  });
}

/** The tools alone, where nothing can be said of speeds: the material is not in the tables, or the shop has no machine. */
export function unpricedLines(feature: Feature, read: ReadPart): readonly string[] {
  const { part, shop } = read;
  if (shop.unread !== undefined) return [];
  const why = shop.machines.length === 0 ? 'the shop has no machine' : 'the material is not in the tables';
  return operationsOf(feature, read).map((o) =>
    o.does === 'missing' ? cutLine({ operation: o, minutes: [0, 0] }, part.units) : `${doing(o)} · no speeds: ${why}`,
  );
}

function doing(o: Exclude<Operation, { does: 'missing' }>): string {
  const does = o.does === 'rest' ? 'clear the corners' : o.does;
  const enters = 'enters' in o && o.enters ? `, ${ENTERS[o.enters]}` : '';
  // By hand or by the spindle: the other way round than every other tap.
  const left =
    o.does === 'tap' && o.tool.thread.endsWith('-LH')
      ? ', left-hand: turned counter-clockwise'
      : o.does === 'thread' && o.leftHand
        ? ', left-hand: round the other way'
        : '';
  return `${does} with ${o.tool.name}${left}${o.times > 1 ? `, ${o.times} times` : ''}${o.how === undefined ? '' : `, ${o.how}`}${enters}`;
}

const ENTERS = {
  helix: 'in by a helix',
  ramp: 'in by a ramp',
  plunge: 'straight down (it cuts over its centre)',
  drilled: 'in by the drilled hole',
} as const;

/** One line a cut: `drill with dr-4.2: 4615 rpm, 388 mm/min, 0.2 to 0.3 min`. */
export function cutLine(priced: Priced, units: 'mm' | 'in', machine?: Machine): string {
  const { operation: o, conditions: c } = priced;
  if (o.does === 'missing') return `nothing in the shop: ${lengthsIn(o.wanted, units)}`;
  const wrench = `by hand: started square, turned with a wrench, ${newtonMetres(priced.torqueNm ?? 0)}`;
  return [
    doing(o),
    ...(o.does === 'tap' && !c ? [wrench] : []),
    ...(c
      ? [
          speedAndFeed(priced, c, units, machine),
          ...loadText(priced, units),
          ...(priced.passes === undefined ? [] : [`${priced.passes} passes`]),
          ...(priced.pecks === undefined || priced.peckMm === undefined
            ? []
            : [`${priced.pecks} pecks of ${formatLength(round(priced.peckMm), units)}`]),
          ...(machine ? byHands(o, machine) : []),
          ...limitText(c),
        ]
      : []),
    minutesText(priced.minutes),
  ].join(' · ');
}

function speedAndFeed({ milling }: Priced, c: Conditions, units: 'mm' | 'in', machine?: Machine): string {
  const { surface, unit } = SURFACE[units];
  const range = c.speedRange.map((v) => Math.round(v * surface)).join(' to ');
  const own = milling?.ownFeed
    ? ` (shop: at most ${formatLength(round(milling.chipRangeMm[1], 4), units)} a tooth)`
    : '';
  return `${speedText(c.rpm, c.wantedRpm, machine)} (${Math.round(c.speedMPerMin * surface)} ${unit} of ${range}), feed ${feedText(c.feedMmPerMin, units)}${own}`;
}

/** What the cut asks of the tool and the spindle. */
function loadText({ milling, torqueNm, thrustN, powerW }: Priced, units: 'mm' | 'in'): readonly string[] {
  if (milling) {
    const { aeMm, apMm, load, deflectionMm } = milling;
    return [
      `${formatLength(round(aeMm), units)} wide and ${formatLength(round(apMm), units)} deep, ${Math.round(load.resultantN)} N, bends ${formatLength(round(deflectionMm, 3), units)}, ${watts(load.powerW)}`,
    ];
  }
  if (torqueNm === undefined) return [];
  const thrust = thrustN === undefined ? '' : `${Math.round(thrustN)} N down, `;
  return [`${thrust}${newtonMetres(torqueNm)}, ${watts(powerW ?? 0)}`];
}

function limitText({ limitedBy, speedMPerMin, speedRange }: Conditions): readonly string[] {
  if (limitedBy === 'range') return [];
  const burns = limitedBy === 'slowest' && speedMPerMin > speedRange[1] * (1 + ROUNDING);
  return [`limited by ${LIMIT[limitedBy]}${burns ? ': too fast for the cutter' : ''}`];
}

/** Which way round, and how its place is come to, where hands or play in the screws say. */
function byHands({ does }: Operation, machine: Machine): readonly string[] {
  if (PLACED.has(does)) return fromOneSide(machine) ? ['come to its place from one side'] : [];
  return SIDED.has(does) && !mayClimb(machine) ? ['conventional, not climb'] : [];
}
const PLACED: ReadonlySet<Operation['does']> = new Set(['spot', 'drill', 'bore']);
const SIDED: ReadonlySet<Operation['does']> = new Set([
  'rough',
  'rest',
  'finish',
  'face',
  'chamfer',
  'round',
  'undercut',
  'slot',
]);

/** What the spindle is to turn, and what its operator has to do for it. */
export function speedText(rpm: number, wantedRpm: number, machine?: Machine): string {
  const turns = Math.round(rpm);
  if (machine?.stepsRpm) {
    const other = Math.abs(wantedRpm - rpm) > 0.5 ? ` for ${Math.round(wantedRpm)} wanted` : '';
    return `set the step of ${turns} rpm${other}`;
  }
  if (machine?.setBy === 'unmarked')
    return `set about ${Math.round(rpm / 10) * 10} rpm, which nothing shows: by its speed chart or a hand tachometer`;
  return machine?.setBy === 'dial' ? `set ${turns} rpm` : `${turns} rpm`;
}

const SURFACE = {
  mm: { surface: 1, unit: 'm/min' },
  in: { surface: 1000 / MM_PER_INCH / 12, unit: 'ft/min' },
} as const;

function feedText(mmPerMin: number, units: 'mm' | 'in'): string {
  return units === 'in'
    ? `${Number((mmPerMin / MM_PER_INCH).toPrecision(3))} in/min`
    : `${Math.round(mmPerMin)} mm/min`;
}

const LIMIT = {
  range: '',
  revolutions: 'the spindle’s highest revolutions',
  slowest: 'the spindle’s lowest revolutions',
  feed: 'the machine’s feed',
  power: 'the spindle’s power',
  torque: 'the spindle’s torque',
  holder: 'what its holder keeps from slipping',
  tool: 'what the tool bears',
  unasked: 'its highest speed, which the shop does not give (`rpm`)',
  finish: 'the roughness that is asked',
  step: 'the spindle’s steps',
  deflection: 'how far the cutter may bend',
  stiffness: 'how far the machine may give way',
} as const;

/** More tools of one reason are counted, not named. */
const MOST_NAMED = 4;

/** Why the tools that were not chosen do not cut it, those of one reason together: `not em-8, em-10: too thick for …`. */
export function passedOverLines(feature: Feature, read: ReadPart, most = 4): readonly string[] {
  const { part, shop } = read;
  if (shop.unread !== undefined || comesCut(feature, part, read.solid)) return [];
  const groups = new Map<string, { names: string[]; why: string }>();
  for (const { tool, why, all } of passedOverOf(feature, read)) {
    const known = groups.get(all);
    if (known) known.names.push(tool.name);
    else groups.set(all, { names: [tool.name], why });
  }
  return [...groups].slice(0, most).map(([all, { names, why }]) => {
    const named = names.slice(0, MOST_NAMED).join(', ');
    const more = names.length > MOST_NAMED ? ` and ${names.length - MOST_NAMED} more` : '';
    return `not ${named}${more}: ${lengthsIn(names.length === 1 ? why : all, part.units)}`;
  });
}

/** From here on minutes are no longer grasped. */
const LONG_MIN = 300;

/** `0.2 to 0.3 min`, `45 s` under a minute, `5.2 to 9.1 h` from five hours on. */
export function minutesText([low, high]: readonly [number, number], to = 'to'): string {
  if (!Number.isFinite(low)) return 'no end of it';
  if (high <= 0) return '0 min';
  if (high >= LONG_MIN) return `${(low / 60).toFixed(1)} ${to} ${(high / 60).toFixed(1)} h`;
  const one = (minutes: number) =>
    high < 1 ? Math.max(1, Math.round(minutes * 60)) : Number(minutes.toFixed(minutes < 10 ? 1 : 0));
  const [a, b] = [one(low), one(high)];
  return `${a === b ? a : `${a} ${to} ${b}`} ${high < 1 ? 's' : 'min'}`;
}

function watts(w: number): string {
  return w < 100 ? `${Math.round(w)} W` : `${(w / 1000).toFixed(2)} kW`;
}

function newtonMetres(nm: number): string {
  return `${Number(nm.toPrecision(2))} N·m`;
}

function round(mm: number, digits = 2): number {
  return Number(mm.toFixed(digits));
}

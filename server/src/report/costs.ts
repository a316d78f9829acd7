/**
 * Time and money in words: what a part's pieces take at the machine and beside it, set-up by set-up, what most of it goes
 * to, and what they cost by the shop's rates. Ranges throughout; where the order of cuts is only supposed, it is said.
 */

import type { Shop } from '../model/shop-model';
import { TIME_NAMES, TIMES_SOURCE } from '../model/shop-times';
import { type BarNeed, barsNeeded, rackFor } from '../planning/bars';
import { type Cost, costOf, isPricedBar, priceOfBars, sawn, USUAL_SAW } from '../planning/cost';
import { type Order, type PieceTime, pieceTime, spentOn } from '../planning/piece-time';
import type { Range } from '../planning/ranges';
import type { SetupTime } from '../planning/times';
import { isOffMill } from '../process/made-on';
import { comesCut } from '../process/stock/brought';
import type { ReadPart } from '../rules/judging';
import { formatLength } from '../text/format';
import { minutesText } from './cuts';

export const ORDER_TEXT: Readonly<Record<Order, string>> = {
  written: 'as its set-ups say',
  planned: 'as planned',
  rough: 'in a rough order, a set-up for each face that must be up: no set-ups are written',
};

/** `12.40 to 31.00 EUR`; one number where both ends are the same. */
export function moneyText([low, high]: Range, currency: string): string {
  const digits = high >= 100 ? 0 : high >= 10 ? 1 : 2;
  const [a, b] = [low.toFixed(digits), high.toFixed(digits)];
  return `${a === b ? a : `${a} to ${b}`} ${currency}`;
}

/** Lines for `--facts`; none without a body or a machine. */
export function timeLines(checked: ReadPart, quantity = checked.part.quantity): string[] {
  const time = pieceTime(checked);
  if (!time) return [];
  const { machine } = time;
  const row = (label: string, value: string) => `    ${label.padEnd(22)} ${value}`;
  const spent = spentOn(time, quantity);
  return [
    `  time, ${ORDER_TEXT[time.order]}:`,
    ...machine.setups.map((s) => row(s.setup.name, setupText(s))),
    ...notIn(time, checked).map((text) => row('mind', text)),
    row('first piece', `${minutesText(machine.firstPiece)} at the machine`),
    ...(quantity > 1
      ? [
          row('each further', `${minutesText(machine.eachFurther)} at the machine`),
          row(`all ${quantity}`, `${minutesText(spent.machine)} at the machine, set up once for all`),
        ]
      : []),
    row('by hand, each', handText(time, checked)),
    ...(mostOf(time).length > 0 ? [row('most of the first', mostOf(time).join(', '))] : []),
    row('hands', handTimes(checked.shop)),
  ];
}

/** What the times leave out. */
export function notIn({ machine }: PieceTime, { part, solid }: ReadPart): readonly string[] {
  const lacking = [...new Set(machine.setups.flatMap((s) => s.missing.map((m) => m.split(':')[0]!)))];
  const cut = new Set(machine.setups.flatMap((s) => s.cuts.map((c) => c.name)));
  const uncut = part.features
    .filter((f) => !isOffMill(f) && !cut.has(f.name) && solid.voidsOf(f.name).length > 0 && !comesCut(f, part, solid))
    .map((f) => f.name);
  return [
    ...(lacking.length > 0 ? [`not in it: what no tool in the shop cuts of ${lacking.join(', ')}`] : []),
    ...(uncut.length > 0 ? [`not in it: ${uncut.join(', ')}, which no set-up cuts`] : []),
    ...(part.broken.size > 0 ? [`not in it: ${[...part.broken].join(', ')}, not understood`] : []),
  ];
}

function setupText({ setup, cutting, settingUp, making, changing, loading, tools, zeroAnew }: SetupTime): string {
  const made =
    making[1] > 0
      ? ` (of it ${setup.hold?.type === 'soft-jaws' ? 'soft jaws' : 'a plate'} to make, ${minutesText(making)})`
      : '';
  const anew = zeroAnew.length > 0 ? ` with zero in ${zeroAnew.join(', ')} found anew` : '';
  return `${cutting[1] > 0 ? `cutting ${minutesText(cutting)}` : 'cutting nothing'}, setting up ${minutesText(settingUp)}${made}, ${tools.length === 0 ? 'no tool put in' : `${tools.length} tool${tools.length === 1 ? '' : 's'} put in ${minutesText(changing)}`}; loading a further piece ${minutesText(loading)}${anew}`;
}

function handText({ hands }: PieceTime, { part }: ReadPart): string {
  const said = [
    ...(hands.sawCuts > 0 ? [`sawing ${minutesText(hands.sawing)}`] : []),
    `deburring about ${edgesText(hands.edgeMm, part.units)} of edges ${minutesText(hands.deburring)}`,
    ...(hands.sizes > 0
      ? [`measuring ${hands.sizes} size${hands.sizes === 1 ? '' : 's'} ${minutesText(hands.measuring)}`]
      : []),
    ...(hands.benching[1] > 0 ? [`at drill press and bench ${minutesText(hands.benching)}`] : []),
    ...(hands.threading[1] > 0 ? [`threading with a die ${minutesText(hands.threading)}`] : []),
  ];
  return said.join(', ');
}

function edgesText(mm: number, units: 'mm' | 'in'): string {
  return units === 'in' ? `${(mm / 25.4).toFixed(0)} in` : `${(mm / 1000).toFixed(2)} m`;
}

/** What takes a tenth or more of the first piece: setting up, changing tools, single features; the longest first. */
const MUCH = 0.1;
export function mostOf({ machine }: PieceTime, most = 4): readonly string[] {
  const shares = new Map<string, Range>();
  const note = (what: string, [a, b]: Range) => {
    const [low, high] = shares.get(what) ?? [0, 0];
    shares.set(what, [low + a, high + b]);
  };
  for (const s of machine.setups) {
    note('setting up', s.settingUp);
    note('changing tools', s.changing);
    for (const { name, minutes } of s.cuts) note(name, minutes);
  }
  const middle = ([low, high]: Range) => (low + high) / 2;
  const whole = middle(machine.firstPiece);
  if (whole === 0) return [];
  const large = [...shares].filter(([, m]) => middle(m) >= MUCH * whole).sort((a, b) => middle(b[1]) - middle(a[1]));
  return large
    .slice(0, most)
    .map(([name, m]) => `${name} ${minutesText(m)} (${Math.round((100 * middle(m)) / whole)} %)`);
}

function handTimes({ times }: Shop): string {
  const said = TIME_NAMES.map((name) => `${name} ${times[name].map((m) => Number(m.toFixed(2))).join(' to ')}`).join(
    ', ',
  );
  const own = times.given.length === 0 ? '' : `; set by the shop: ${times.given.join(', ')}`;
  return `${said} min (${times.given.length === TIME_NAMES.length ? 'set by the shop' : `${TIMES_SOURCE}${own}`})`;
}

/** Lines for `--facts`; none where the shop sets no rate. */
export function costLines(checked: ReadPart, quantity = checked.part.quantity): string[] {
  const cost = costOf([{ checked, quantity }]);
  if (!cost) return [];
  const { rates } = checked.shop;
  const row = (label: string, value: string) => `    ${label.padEnd(22)} ${value}`;
  const money = (range: Range) => moneyText(range, cost.currency);
  const all = quantity === 1 ? 'one piece' : `all ${quantity}`;
  const each = [cost.total[0] / quantity, cost.total[1] / quantity] as const;
  return [
    `  cost of ${all}, by the rates of ${checked.shop.name} (${rates.machineHour} ${rates.currency} an hour of the machine, ${rates.personHour} of a person):`,
    ...barLines(barsNeeded([sawn({ checked, quantity })], USUAL_SAW), checked.part.units, cost.currency).map((text) =>
      row('material', text),
    ),
    ...unpricedLine(checked, cost).map((text) => row('material', text)),
    ...(rates.machineHour > 0 ? [row('machine', money(cost.machine))] : []),
    ...(rates.personHour > 0 ? [row('person', money(cost.person))] : []),
    row(all, money(cost.total)),
    ...(quantity > 1 ? [row('a piece', money(each))] : []),
  ];
}

function unpricedLine({ part, shop }: ReadPart, cost: Cost): readonly string[] {
  if (cost.unpriced.length === 0) return [];
  if (part.stock.blank) return [`not in the sum: the blank, ${part.stock.blank.file}`];
  if (part.stock.form === 'casting') return ['not in the sum: the casting'];
  return [
    rackFor(part, shop)
      ? 'not in the sum: the rack gives no price for a metre of it'
      : `not in the sum: no bar of its section and material is in the shop (stock: ${part.stock.form})`,
  ];
}

/** A saw's vise holds the bar by so much: of a shorter end nothing is sawn off. Common practice, no source: 30 to 60 mm. */
const SAW_GRIP_MM = 40;

/** How long each piece is to be sawn, kerf not counted: `2 × 63 mm, 40 mm`. */
function cutsText({ cuts = [] }: BarNeed, units: 'mm' | 'in'): string {
  const exact = (mm: number) => formatLength(Number(mm.toFixed(units === 'in' ? 3 : 1)), units);
  const each = new Map<string, number>();
  for (const { mm, times } of cuts) each.set(exact(mm), (each.get(exact(mm)) ?? 0) + times);
  return [...each].map(([mm, times]) => (times === 1 ? mm : `${times} × ${mm}`)).join(', ');
}

/** One for each kind of bar: how much is used, what is left, and its price where the rack has one. */
export function barLines(bars: readonly BarNeed[], units: 'mm' | 'in', currency: string | undefined): string[] {
  const length = (mm: number) => formatLength(Number(mm.toFixed(units === 'in' ? 2 : 0)), units);
  const each = (n: number, mm: number) => (n === 1 ? length(mm) : `${n} × ${length(mm)}`);
  return bars.map((bar) => {
    const { what, pieces, usedMm, bought, offcuts, remnants: left, toBar, perMetre, staysMm } = bar;
    const [byMetre, whole] = priceOfBars(bar);
    const priced = isPricedBar(bar) && currency !== undefined;
    const price = (money: number) => (priced ? ` ${moneyText([money, money], currency)}` : '');
    const sawn = cutsText(bar, units);
    const spare = left.filter((l) => l.mm > 0).map((l) => each(l.bars, l.mm));
    const ends = spare.length > 0 ? `${spare.join(', ')} left` : 'nothing left over';
    const short = left.some((l) => l.mm > 0.5 && l.mm < SAW_GRIP_MM)
      ? `; under ${length(SAW_GRIP_MM)} the saw’s vise has too little to hold: the last cut is made with the piece held`
      : '';
    const rack = offcuts.map((o) => each(o.count, o.lengthMm)).join(', ');
    const wholes = bought.map((b) => `${b.count} whole of ${length(b.lengthMm)}`).join(' and ');
    const buy =
      bought.length === 0
        ? []
        : [
            ...(perMetre !== undefined || !priced
              ? [`${length(usedMm)} with the saw’s kerf${price(byMetre)}, or`]
              : []),
            `${wholes}${price(whole)}`,
          ];
    const from = [
      ...(rack ? [`from the rack ${rack}${bought.length > 0 ? ',' : ''}`] : []),
      ...buy,
      `(${toBar === undefined ? '' : `${toBar} to each, `}${ends}${short})`,
    ];
    return `${pieces} piece${pieces === 1 ? '' : 's'} from ${what}: ${sawn ? `sawn ${sawn}, ` : ''}${staysMm ? `one after another off a bar of which the vise holds ${length(staysMm)}, ` : ''}${from.join(' ')}`;
  });
}

/** stock/not-on-rack – a bar of this section is not to be had here. */

import { type Bar, barOf, barSizes, barsFor, rackOf, rackSizes } from '../../model/bar';
import type { Axis, Length } from '../../model/model';
import type { RackItem, Shop } from '../../model/shop-model';
import { stockSizeMm } from '../../model/stock';
import { ENDS, offInShop, wallOff, writtenOff } from '../../process/supplied';
import type { BarDeviation } from '../../tables/bar-tolerances';
import { ROUNDING, SAME } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { setLength } from '../kit/edits';
import { fact, list, trimmed } from '../kit/message';
import type { Facts, Rule, RuleContext } from '../kit/rule';
import { setExtras } from './extra';
import { acrossOf, type Change, holding, likest, longestOf, madeToBar, type Offer } from './nearest-bar';
import { type NoPlate, noPlate } from './plates';

interface Missing {
  readonly bar: Bar;
  readonly near?: Offer;
  /** Of a tube, angle, channel or tee: another that is there. */
  readonly like?: RackItem;
  readonly change?: Change;
  /** There is such a bar, but none as long as the piece. */
  readonly longestMm?: number;
}

function missing({ part, shop, limit }: RuleContext): Missing | undefined {
  // The built-in shop's rack is nobody's: what is not on it may well be on theirs.
  const bar = part.stock.written && !shop.builtIn ? barOf(part) : undefined;
  if (!bar || !part.material || !hasMaterial(shop, part.material.name)) return undefined;
  const there = barsFor(part, bar, shop);
  const longestMm = longestOf(there);
  if (there.length > 0 && (longestMm === undefined || longestMm >= bar.pieceMm - ROUNDING)) return undefined;
  if (longestMm !== undefined) return { bar, longestMm };
  if (bar.wallsMm) {
    const like = likest(part, bar, shop);
    return { bar, ...(like && { like }) };
  }
  const near = holding(part, bar, shop);
  const change = madeToBar(part, bar, shop, limit('change'));
  return { bar, ...(near && { near }), ...(change && { change }) };
}

/** There is such a bar or plate, but it is not made as closely as the part writes of it. */
interface Looser {
  readonly size: Length;
  readonly writtenMm: number;
  readonly rackMm: number;
  readonly source: string;
}

function looser({ part, shop }: RuleContext): Looser | undefined {
  const { section } = part.stock;
  if (!part.stock.written || shop.builtIn || rackOf(part, shop).length === 0) return undefined;
  const sizes = stockSizeMm(part);
  for (const size of [part.stock.thickness, part.stock.width, part.stock.diameter]) {
    const i = size ? sizes.findIndex((mm) => Math.abs(mm - size.mm) < SAME) : -1;
    const written = i >= 0 ? writtenOff(part, size!.mm) : undefined;
    const there = written && offInShop(part, (['x', 'y', 'z'] as const)[i]! satisfies Axis, shop);
    const found = looserThan(size, written, there);
    if (found) return found;
  }
  for (const side of ['wall', 'flange'] as const) {
    const size = section?.[side];
    const { upperMm, lowerMm } = size?.tolerance ?? {};
    if (!size || upperMm === undefined || lowerMm === undefined) continue;
    const found = looserThan(size, { upperMm, lowerMm }, wallOff(part, side, size.mm, shop));
    if (found) return found;
  }
  return undefined;
}

type Limits = Pick<BarDeviation, 'upperMm' | 'lowerMm'>;

function looserThan(size: Length | undefined, written?: Limits, there?: BarDeviation): Looser | undefined {
  if (!size || !written || !there) return undefined;
  if (there.upperMm <= written.upperMm + ROUNDING && there.lowerMm >= written.lowerMm - ROUNDING) return undefined;
  const wide = ({ upperMm, lowerMm }: Limits) => upperMm - lowerMm;
  return { size, writtenMm: wide(written), rackMm: wide(there), source: there.source };
}

const sectionText = ([a, b]: readonly [number, number], { length }: RuleContext) =>
  `${length(a).replace(/ \w+$/, '')} × ${length(b)}`;

const sizesText = (sizes: readonly number[], { length }: RuleContext) =>
  sizes.map((mm, i) => (i < sizes.length - 1 ? length(mm).replace(/ \w+$/, '') : length(mm))).join(' × ');

/** What is bought less, by the piece, where the body is made to the smaller bar. */
function savedText(change: Change, near: Offer | undefined, { shop }: RuleContext): { text: string; facts: Facts } {
  if (!near || near.pieceMm3 <= change.offer.pieceMm3) return { text: '', facts: {} };
  const cm3 = (near.pieceMm3 - change.offer.pieceMm3) / 1000;
  const money =
    near.price !== undefined && change.offer.price !== undefined ? near.price - change.offer.price : undefined;
  const priced = money === undefined || money <= 0 ? '' : ` and ${money.toFixed(2)} ${shop.rates.currency}`;
  return {
    text: `, saving ${trimmed(cm3, 1)} cm³${priced}`,
    facts: { saved_cm3: fact(cm3), ...(priced && { saved_money: fact(money!), currency: shop.rates.currency }) },
  };
}

const BAD = `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 42, z: 16 }
stock: { form: flat-bar, sawn: [left, right], extra: { left: 2, right: 2 } }
features:
  mount: { kind: hole, face: top, at: { x: center, y: center }, diameter: 5.5, depth: through }
`;

export const notOnRack: Rule = defineRule({
  name: 'stock/not-on-rack',
  severity: 'warning',
  summary: 'The shop has no bar of this section and material.',
  why: 'To order a bar costs a week and its freight. For a body a little larger than a bar in the shop, half of the next size is milled away.',
  formula:
    'The stock’s section, to 0.1 mm, is compared with every bar of the same form and material under `rack`. The nearest is the smallest whose section holds the stock. What a smaller body saves is the difference of the two bars over the length, and of their prices. Limits that the part writes of its stock are compared with those of the rack, or of its standard. Walls of sections are compared with those of EN 755-9. Not reported where the shop lists no bars or is the built-in one, or the part gives no stock.',
  limits: [
    {
      name: 'change',
      value: 0.15,
      unit: 'ratio',
      what: 'How much smaller a size of the body may be made for a bar, as a share.',
      source: 'common practice, no source',
    },
  ],
  shop: `shop: bench
units: mm
machines:
  mill: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 1.1 kW }, feed: 2000 mm/min, coolant: flood, zero-error: { edge-finder: 0.02 } }
vises: { vise: { jaw: { width: 100, height: 32 }, opens: 110, force: 15 kN, face: smooth } }
tools:
  dr-5.5: { kind: drill, diameter: 5.5, flute-length: 57, point: 118, material: hss }
  em-16: { kind: end-mill, diameter: 16, flutes: 3, flute-length: 34, reach: 46, shank: 16, material: carbide }
rack:
  - { form: flat-bar, material: aluminium-6061-t6, section: { width: 40, thickness: 16 }, lengths: [1000], per-metre: 9.5 }
  - { form: flat-bar, material: aluminium-6061-t6, section: { width: 50, thickness: 20 }, lengths: [1000], per-metre: 14 }
`,
  bad: BAD,
  good: edited(BAD, ['y: 42', 'y: 40']),
  mends: 'Make the body to the bar, or use the bar that holds it and write what is left to mill.',
  *find(context): Generator<Missing | NoPlate | Looser> {
    const { part, shop } = context;
    const plate = part.stock.written && !shop.builtIn ? noPlate(part, shop) : undefined;
    if (plate) yield plate;
    const bar = missing(context);
    if (bar) yield bar;
    const loose = plate || bar ? undefined : looser(context);
    if (loose) yield loose;
  },
  tell(hit, context) {
    const { stock, body } = context.part;
    const said =
      'bar' in hit ? tellBar(hit, context) : 'size' in hit ? tellLooser(hit, context) : tellPlate(hit, context);
    return {
      of: [],
      span: stock.span,
      related: [body && { span: body.span, message: 'the body that it is cut to' }],
      ...said,
    };
  },
  keep(hit, { part }) {
    if (!('bar' in hit)) return undefined;
    const { bar, near, change: made } = hit;
    const fits = near && near.item.form === part.stock.form && near.item.form !== 'round-bar' ? near : undefined;
    const more = (fits ? acrossOf(part, bar) : []).flatMap((a, i) => {
      const overMm = fits!.section[i]! - a.stockMm;
      const face = ENDS[a.axis][1];
      return overMm > SAME ? [{ face, mm: overMm + (part.stock.extra[face]?.mm ?? 0) }] : [];
    });
    return { made: made && { axis: made.axis, toMm: made.toMm }, section: fits?.section, more };
  },
  *mend({ made, section, more }, context) {
    const { part, length } = context;
    if (made && part.body?.form === 'box')
      yield change(
        `Make ${made.axis} ${length(made.toMm)}, to the bar`,
        setLength(part.body[made.axis], made.toMm, part),
      );
    if (!section || more.length === 0) return;
    const onFaces = more.map(({ face, mm }) => `${length(mm)} on ${face}`);
    const title = `Use the ${sectionText(section, context)} bar and mill off ${list(onFaces)}`;
    yield change(title, setExtras(more, context));
  },
});

type Said = Pick<Told, 'message' | 'has' | 'needs' | 'facts'>;

function tellBar({ bar, near, like, change: made, longestMm }: Missing, context: RuleContext): Said {
  const { part, length } = context;
  const [wall, flange] = bar.wallsMm ?? [];
  const size = { width_mm: bar.sectionMm[0], thickness_mm: bar.sectionMm[1], wall_mm: wall, flange_mm: flange };
  const across = bar.wallsMm ? sizesText(barSizes(part, bar), context) : sectionText(bar.sectionMm, context);
  const what = `${part.stock.form} of ${across} in ${part.material!.name}`;
  if (longestMm !== undefined)
    return {
      message: `The part needs a piece ${length(bar.pieceMm)} long. The longest ${what} in the shop is ${length(longestMm)}. Buy a longer bar, or make it in two pieces.`,
      has: length(longestMm),
      needs: length(bar.pieceMm),
      facts: { ...size, piece_mm: bar.pieceMm, longest_mm: longestMm },
    };
  if (bar.wallsMm)
    return {
      message: `The shop has no ${what}. ${like ? `Draw the part from ${like.form} ${sizesText(rackSizes(like), context)}, which is there, or buy this bar` : 'Buy this bar'}.`,
      facts: size,
    };
  const over = near && Math.max(...bar.sectionMm.map((mm, i) => near.section[i]! - mm));
  const saved = made && savedText(made, near, context);
  const sentences = [
    near
      ? `Use ${near.item.form} ${sectionText(near.section, context)} (mill ${length(over!)} more)`
      : 'None in the shop holds the part. Buy this bar',
    ...(made
      ? [`or make ${made.axis} ${length(made.toMm)} for ${sectionText(made.offer.section, context)}${saved!.text}`]
      : []),
  ];
  return {
    message: `The shop has no ${what}. ${sentences.join(', ')}.`,
    facts: {
      ...size,
      nearest_width_mm: near?.section[0],
      nearest_thickness_mm: near?.section[1],
      more_mm: over,
      from_mm: made?.fromMm,
      to_mm: made?.toMm,
      ...saved?.facts,
    },
  };
}

function tellLooser({ size, writtenMm, rackMm, source }: Looser, { part, length }: RuleContext): Said {
  const kind = part.stock.form === 'plate' ? 'plate' : 'bar';
  return {
    message: `The ${size === part.stock.section?.wall || size === part.stock.section?.flange ? 'wall of the stock' : 'stock'} is ${size.text}. The ${kind} in the shop has a tolerance ${length(rackMm)} wide (${source}). Buy such a ${kind}, or write its limits under \`rack\`.`,
    has: length(rackMm),
    needs: length(writtenMm),
    facts: { written_mm: writtenMm, rack_mm: rackMm },
  };
}

function tellPlate({ thickMm, nearMm }: NoPlate, { part, length }: RuleContext): Said {
  const near =
    nearMm === undefined
      ? 'None in the shop is thicker. Buy this plate.'
      : `Use ${length(nearMm)}: ${length(nearMm - thickMm)} more to mill off.`;
  return {
    message: `The shop has no plate ${length(thickMm)} thick in ${part.material!.name}. ${near}`,
    has: nearMm === undefined ? undefined : length(nearMm),
    needs: length(thickMm),
    facts: {
      thickness_mm: thickMm,
      nearest_thickness_mm: nearMm,
      more_mm: nearMm === undefined ? undefined : nearMm - thickMm,
    },
  };
}

/** A rack that does not list the material at all says nothing about it. */
function hasMaterial(shop: Shop, material: string): boolean {
  return shop.rack.some((r) => r.material === material);
}

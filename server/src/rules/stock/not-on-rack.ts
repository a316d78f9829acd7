/** stock/not-on-rack – a bar of this section is not to be had here. */
import { barOf, barsFor, rackSection } from '../../spec/bar';
import type { Shop } from '../../spec/shop-model';
import { fact } from '../message';
import type { Finding, Rule, RuleContext } from '../rule';

const NAME = 'stock/not-on-rack';

interface Nearest {
  readonly section: readonly [number, number];
  readonly form: string;
}

/** The smallest bar of the material that the body's own section goes into. */
function holding({ part, shop }: RuleContext, across: readonly [number, number]): Nearest | undefined {
  const fits = shop.rack.flatMap((r) => {
    const section = rackSection(r);
    const round = r.form === 'round-bar';
    const inside =
      section && (round ? Math.hypot(...across) <= section[0] : across.every((mm, i) => mm <= section[i]! + 1e-6));
    return r.material === part.material?.name && inside
      ? [{ section, form: r.form, area: round ? (Math.PI / 4) * section[0] ** 2 : section[0] * section[1] }]
      : [];
  });
  return fits.sort((a, b) => a.area - b.area)[0];
}

export const notOnRack: Rule = {
  name: NAME,
  severity: 'warning',
  summary: 'No bar of this section and material lies on the rack.',
  why: 'A bar that has to be ordered costs a week and its own freight; a body that is a hair larger than a bar on the rack turns half of the next size into chips.',
  formula:
    'The stock’s section across the bar, to a tenth of a millimetre, against every bar of the same form and material under `rack`. The nearest is the smallest whose section holds the body. Nothing is said where the shop lists no bars or is the built-in one, or the part gives no stock.',
  limits: [],
  shop: `shop: bench
units: mm
machines:
  mill: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 1.1 kW }, feed: 2000 mm/min, coolant: flood, locates: { edge-finder: 0.02 } }
vises: { vise: { jaw: { width: 100, height: 32 }, opens: 110, force: 15 kN, face: smooth } }
tools:
  dr-5.5: { kind: drill, diameter: 5.5, flute-length: 57, point: 118, material: hss }
rack:
  - { form: flat-bar, material: aluminium-6061-t6, section: { width: 40, thickness: 16 }, lengths: [1000], per-metre: 9.5 }
  - { form: flat-bar, material: aluminium-6061-t6, section: { width: 50, thickness: 20 }, lengths: [1000], per-metre: 14 }
`,
  bad: `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 42, z: 16 }
stock: { form: flat-bar, sawn: [left, right], extra: { left: 2, right: 2 } }
features:
  mount: { kind: hole, face: top, at: { x: center, y: center }, diameter: 5.5, depth: through }
`,
  good: `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
stock: { form: flat-bar, sawn: [left, right], extra: { left: 2, right: 2 } }
features:
  mount: { kind: hole, face: top, at: { x: center, y: center }, diameter: 5.5, depth: through }
`,
  *find(context): Generator<Finding> {
    const { part, shop, length } = context;
    // The built-in shop's rack is nobody's: what is not on it may well be on theirs.
    const bar = part.stock.written && !shop.builtIn ? barOf(part) : undefined;
    if (!bar || !part.material || !hasMaterial(shop, part.material.name) || barsFor(part, bar, shop).length > 0) return;
    const shown = (s: readonly [number, number]) => `${length(s[0]).replace(/ \w+$/, '')} × ${length(s[1])}`;
    const near = holding(context, bar.sectionMm);
    const over = near && bar.sectionMm.map((mm, i) => near.section[i]! - mm);
    const would = near
      ? `The nearest that holds it is a ${near.form} of ${shown(near.section)}: ${length(Math.max(...over!))} more to mill off, or a body of that size.`
      : 'None that is there holds it.';
    yield {
      rule: NAME,
      severity: 'warning',
      message: `No ${part.stock.form} of ${shown(bar.sectionMm)} in ${part.material.name} lies on the rack. ${would}`,
      of: [],
      span: part.stock.span,
      related: part.body ? [{ span: part.body.span, message: 'the body that it is cut to' }] : [],
      facts: {
        width_mm: fact(bar.sectionMm[0]),
        thickness_mm: fact(bar.sectionMm[1]),
        ...(near && {
          nearest_width_mm: fact(near.section[0]),
          nearest_thickness_mm: fact(near.section[1]),
          more_mm: fact(Math.max(...over!)),
        }),
      },
    };
  },
};

/** A rack that does not list the material at all says nothing about it. */
function hasMaterial(shop: Shop, material: string): boolean {
  return shop.rack.some((r) => r.material === material);
}

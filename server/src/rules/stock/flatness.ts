/** stock/flatness – a face stays as supplied, and is to be flatter than its stock. */

import { AXIS_INDEX } from '../../geometry/vector';
import { barOf } from '../../model/bar';
import { FACE_AXIS, type Face, type Length, type Named, type Part } from '../../model/model';
import { stockSizeMm } from '../../model/stock';
import { sectionFlatAt, staysAsSupplied } from '../../process/supplied';
import { ROUNDING } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { setLength } from '../kit/edits';
import type { Rule, RuleContext } from '../kit/rule';

interface Bent {
  readonly face: Face;
  readonly named: Named;
  readonly wanted: Length;
  readonly mm: number;
  /** As written; else by whose standard. */
  readonly flat?: Length;
  readonly source: string;
}

function* bent({ part }: RuleContext): Generator<Bent> {
  const flat = part.stock.flatness;
  if (part.body?.form !== 'box') return;
  const bar = barOf(part);
  for (const { characteristic, of, value } of part.tolerances)
    for (const named of characteristic === 'flatness' ? of : []) {
      if (!(named.name in FACE_AXIS) || part.featureByName.has(named.name)) continue;
      const face = named.name as Face;
      const end = (bar ? bar.axis : undefined) === FACE_AXIS[face].axis || (!bar && !isThickness(face, part));
      const stock = flat ? { mm: flat.mm, flat, source: '`stock`' } : sectionFlatAt(face, part);
      if (stock && !end && staysAsSupplied(face, part) && stock.mm > value.mm + ROUNDING)
        yield { face, named, wanted: value, ...stock };
    }
}

/** Of plate only its two large faces are as supplied. */
function isThickness(face: Face, part: Part): boolean {
  const sizes = stockSizeMm(part);
  return sizes[AXIS_INDEX[FACE_AXIS[face].axis]]! <= Math.min(...sizes) + ROUNDING;
}

const BAD = `part: sensor-plate
units: mm
material: aluminium-5083-h111
body: { x: 80, y: 60, z: 10 }
stock: { form: plate, thickness: 10 ±0.05, flatness: 0.1 }
features:
  mount: { kind: hole, face: top, at: { x: center, y: center }, diameter: 5.5, depth: through }
tolerances:
  - { flatness: 0.03, of: top }
`;

export const flatness: Rule = defineRule({
  name: 'stock/flatness',
  severity: 'warning',
  summary: 'A face as supplied has a closer flatness than its stock.',
  why: 'This face is not cut, so it is as flat as the plate or bar. A clamp presses a bowed plate flat; it springs back when it is let go.',
  formula:
    'The `flatness` of the stock against a flatness tolerance of a face. It counts where the face is not sawn, has no stock on it and no set-up faces it. Of a plate its two large faces count, of a bar its sides. Tube, angle, channel and tee of aluminium have the flatness of EN 755-9: bowed across the face, or along it. Not reported where the part does not say how flat its bar or plate is.',
  bounds: 'The flatness that the part writes under `stock`; of sections EN 755-9.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['flatness: 0.1', 'flatness: 0.02']),
  mends: 'Allow what the stock has, or leave stock on the face and mill it.',
  find: bent,
  tell: ({ face, wanted, mm, flat, source }, { part, length }) => ({
    message: `The ${face} face stays as supplied, flat to ${length(mm)} by ${source}. It needs ${length(wanted.mm)}. Mill the face, or allow ${length(mm)}.`,
    has: length(mm),
    needs: length(wanted.mm),
    of: [face],
    span: wanted.span,
    related: [flat && { span: flat.span, message: `how flat the ${part.stock.form} is` }],
    facts: { face, flat_mm: wanted.mm, stock_flat_mm: mm },
  }),
  keep: ({ wanted, mm }) => ({ wanted, mm }),
  *mend({ wanted, mm }, { part, length }) {
    yield change(`Allow ${length(mm)}, as the stock is`, setLength(wanted, mm, part));
  },
});

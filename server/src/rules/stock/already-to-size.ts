/** stock/already-to-size – a set-up faces what the bar gives already. */

import { FACE_AXIS, type Face, type Named, type Part } from '../../model/model';
import { sawnFaces } from '../../model/sawn-off';
import { overFace } from '../../process/stock';
import { at, entry } from '../../text/tree';
import { ROUNDING } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { removeItem } from '../kit/edits';
import type { Rule } from '../kit/rule';

interface Known {
  readonly setup: string;
  readonly cut: Named;
  readonly index: number;
}

/** Faces listed under `cuts` on which no stock is left, and which are not sawn. */
function* known(part: Part): Generator<Known> {
  if (!part.stock.written) return;
  const sawn = new Set<string>(sawnFaces(part).map((s) => s.name));
  for (const setup of part.setups ?? [])
    for (const [index, cut] of setup.cuts.entries()) {
      if (!(cut.name in FACE_AXIS) || part.featureByName.has(cut.name) || sawn.has(cut.name)) continue;
      if (overFace(cut.name as Face, part) <= ROUNDING) yield { setup: setup.name, cut, index };
    }
}

const BAD = `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
stock: { form: flat-bar, sawn: [left], extra: { left: 2 } }
features:
  mount: { kind: hole, face: top, at: { x: center, y: center }, diameter: 5.5, depth: through }
setups:
  first:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 6, parallels: 26 }
    zero: { x: right, y: back, z: parallels }
    cuts: [left, top, mount]
`;

export const alreadyToSize: Rule = defineRule({
  name: 'stock/already-to-size',
  severity: 'warning',
  summary: 'A set-up faces a side that the bar already has to size.',
  why: 'A face as supplied is flat and to size. No stock is on it to cut. To face it makes the part too thin, or cuts air.',
  formula:
    'A face under `cuts` on which `extra` leaves nothing, and which `sawn` does not name. A round bar is larger than a body that is not round. Not reported where the part gives no stock.',
  bounds: 'The stock as written in the part.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['extra: { left: 2 }', 'extra: { left: 2, top: 1 }'], ['depth: through', 'depth: 8']),
  mends: 'Delete the face from the list.',
  find: ({ part }) => known(part),
  tell: ({ setup, cut }, { part }) => ({
    message: `Set-up ${setup} faces ${cut.name}, but this face is already to size: no stock is on it. Delete it from the list, or write under \`stock\` what is left there.`,
    of: [cut.name],
    span: cut.span,
    related: [{ span: part.stock.span, message: 'the stock leaves nothing there' }],
    facts: { face: cut.name, set_up: setup },
  }),
  keep: ({ setup, cut, index }) => ({ setup, face: cut.name, index }),
  mend({ setup, face, index }, { tree }) {
    const owner = entry(at(at(tree.root, 'setups'), setup), 'cuts');
    return [change(`Delete ${face} from the cuts`, owner && removeItem(tree, owner, index))];
  },
});

/** hold/pieces – two pieces in one vise that it cannot hold both. */

import { FACE_AXIS, type Part, type TwoPieces } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import { errorOf } from '../../process/stackup/errors';
import { barOff } from '../../process/supplied';
import { STAYS_SHARE } from '../../process/workholding/along';
import { heldOf, type InJaws } from '../../process/workholding/in-jaws';
import { stateOf } from '../../process/workholding/references';
import { inJawsMm } from '../../process/workholding/two-pieces';
import { flowText } from '../../text/write';
import { ROUNDING, SAME } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { heldIn, setHold, setupMap } from '../kit/holds';
import type { Fix, Rule, RuleContext, SpanEdit } from '../kit/rule';
import { holdWritten } from '../kit/write-hold';
import { held, SEAT } from './samples';

/** How much two pieces can differ between the jaws, and by what. */
interface Differ {
  /** Undefined where no table says how far such stock is off. */
  readonly mm?: number;
  readonly how: 'milled' | 'sawn' | 'supplied';
}

type Why =
  | { readonly type: 'one' }
  | { readonly type: 'with'; readonly what: string }
  | { readonly type: 'short'; readonly mm: number; readonly longMm: number }
  | { readonly type: 'differ'; readonly differ: Differ; readonly takesUpMm: number };

interface Badly {
  readonly x: InJaws;
  readonly pieces: TwoPieces;
  readonly why: Why;
}

function* badly(x: InJaws, context: RuleContext): Generator<Badly> {
  const { hold, inVise: h, inTime: s } = x;
  const { pieces } = hold;
  if (!pieces) return;
  const base = { x, pieces };
  if (context.part.quantity < 2) yield { ...base, why: { type: 'one' } };
  const what = hold.vBlock ? 'a V-block' : hold.apart ? 'two vises in line' : s.sawnOff ? 'a bar' : undefined;
  if (what) return yield { ...base, why: { type: 'with', what } };
  const longMm = h.workToMm - h.workFromMm;
  const mm = Math.min(...inJawsMm(h));
  if (mm < STAYS_SHARE * longMm - SAME) yield { ...base, why: { type: 'short', mm: Math.max(0, mm), longMm } };
  const differ = differOf(x, context);
  const takesUpMm = Math.max(context.limit('differ'), context.limit('pad') * pieces.padMm);
  if (differ.mm === undefined ? pieces.padMm === 0 : differ.mm > takesUpMm + ROUNDING)
    yield { ...base, why: { type: 'differ', differ, takesUpMm } };
}

/** Both sides milled: what the mill and the seat repeat. Else what the saw leaves, or what the stock's standard allows. */
function differOf({ inTime: s, inVise: h }: InJaws, { part, solid, shop }: RuleContext): Differ {
  const states = [h.fixed, h.moving].map((f) => stateOf(f, s, 0, part, solid));
  // Each piece may be off to either side.
  const twice = (mm: number) => 2 * mm;
  if (states.includes('sawn')) return { how: 'sawn', mm: twice(errorOf('sawn', shop).mm) };
  if (states.every((state) => state === 'cut')) {
    const mm = Math.SQRT2 * Math.hypot(errorOf('cut', shop).mm, errorOf('seat', shop).mm);
    return { how: 'milled', mm };
  }
  const band = bandOf(part, FACE_AXIS[h.fixed].axis, shop);
  return { how: 'supplied', ...(band !== undefined && { mm: band }) };
}

function bandOf(part: Part, axis: 'x' | 'y' | 'z', shop: Shop): number | undefined {
  const off = part.stock.written ? barOff(part, axis, shop) : undefined;
  return off && off.upperMm - off.lowerMm;
}

const WITH = 'the moving jaw would press one of them and miss the other';
const OF: Record<Differ['how'], string> = {
  milled: 'milled pieces differ by up to',
  sawn: 'sawn pieces differ by up to',
  supplied: 'bars differ by up to',
};

function messageOf({ x, why }: Badly, { part, length, about, limit }: RuleContext): string {
  const { inTime: s, inVise: h } = x;
  const set = `Set-up ${s.setup.name}`;
  switch (why.type) {
    case 'one':
      return `${set} holds two pieces, and ${part.quantity} is to be made: one alone makes the moving jaw tilt. Write \`quantity: 2\` or more, or delete \`pieces\`.`;
    case 'with':
      return `${set} holds two pieces with ${why.what}: ${WITH}. Hold one piece at a time.`;
    case 'short':
      return `${set}: the jaws of ${h.vise.name} hold ${about(why.mm)} of one piece, which is ${length(why.longMm)} long. At least half of each must be between them. Hold one piece, or put them closer.`;
    case 'differ': {
      const { differ, takesUpMm } = why;
      if (differ.mm === undefined)
        return `${set} grips two pieces from ${h.fixed} to ${h.moving}, and nothing says how far they differ there. Measure both: more than ${length(limit('differ'))} needs a soft strip at the moving jaw (\`pad\`).`;
      const loose = differ.how === 'supplied' ? 'the narrower may be loose' : 'the narrower one is loose';
      const then = differ.how === 'supplied' ? 'Measure both, or put' : 'Mill both sides first, or put';
      return `${set}: from ${h.fixed} to ${h.moving} ${OF[differ.how]} ${about(differ.mm, takesUpMm)}. Above ${about(takesUpMm, differ.mm)} ${loose}. ${then} a soft strip at the moving jaw (\`pad\`).`;
    }
    default:
      return why satisfies never;
  }
}

/** Its keys go together, so the whole entry is written anew; over several lines there may be comments in it. */
function oneAlone({ hold, inTime: { setup, up } }: InJaws, context: RuleContext): SpanEdit[] | undefined {
  const map = setupMap(context, setup, 'hold');
  if (!map?.flow || !up) return undefined;
  const { pieces: _, ...alone } = hold;
  const length = (mm: number) => Number(context.write(mm));
  return [{ span: map.span, newText: flowText(holdWritten(alone, up, length)) }];
}

const milled = held({
  body: '{ x: 40, y: 30, z: 20 }',
  features: SEAT,
  hold: '{ vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22, stop: left, pieces: 2, pad: 4 }',
  cuts: '[seat]',
  more: 'quantity: 4\nstock: { form: flat-bar, sawn: [left, right] }\n',
  zero: '{ x: left, y: back, z: parallels }',
});

export const pieces: Rule = defineRule({
  name: 'hold/pieces',
  severity: 'error',
  summary: 'Two pieces in one vise, and the jaws do not hold both.',
  why: 'The moving jaw stops at the wider piece. The narrower one is loose, and the cutter throws it out. What differs must be milled to one size first, or pressed through something soft.',
  formula:
    'Two pieces are as long as twice the workpiece and the `gap`. Of each at least half must be in the jaws. How far they differ is told by their sides. Milled ones: √2 times the errors `cut` and `seat` of tol/as-set-up. Sawn ones: twice `sawn`. Others: the tolerance of the stock. They may differ by `differ`, or by `pad` times the thickness of a soft strip. Each piece bears half of the force of the vise.',
  limits: [
    {
      name: 'differ',
      value: 0.05,
      unit: 'mm',
      what: 'Most that two pieces between the same jaws may differ in width.',
      source: 'common practice, no source: the moving jaw gives that much in its guide',
    },
    {
      name: 'pad',
      value: 0.2,
      unit: 'ratio',
      what: 'Share of its thickness by which a soft strip gives way under the jaw.',
      source: 'common practice, no source: card, hardwood, hard rubber',
    },
  ],
  bad: edited(milled, ['[left, right]', '[left, right, front, back]'], [', pad: 4', '']),
  good: milled,
  mends: 'Mill both sides first, put a soft strip at the moving jaw, or hold one piece at a time.',
  *find(context) {
    for (const x of heldOf(context)) yield* badly(x, context);
  },
  tell(hit, context) {
    const { x, why, pieces: told } = hit;
    const mild = why.type === 'one' || (why.type === 'differ' && why.differ.how === 'supplied');
    return {
      ...(mild && { severity: 'warning' as const }),
      message: messageOf(hit, context),
      of: [],
      span: told.span,
      facts: {
        set_up: x.inTime.setup.name,
        why: why.type,
        ...(why.type === 'short' && { in_jaws_mm: why.mm, length_mm: why.longMm }),
        ...(why.type === 'differ' && { differ_mm: why.differ.mm, takes_up_mm: why.takesUpMm }),
      },
    };
  },
  keep: ({ x, why }) => ({
    setup: x.inTime.setup.name,
    why: why.type,
    differMm: why.type === 'differ' ? why.differ.mm : undefined,
  }),
  *mend({ setup, why, differMm }, context): Generator<Fix | undefined> {
    const x = heldIn(setup, context);
    if (!x) return;
    if (why === 'short' && x.hold.pieces!.gapMm > 0)
      yield change('Put the pieces against each other', setHold(context, x.inTime.setup, 'gap', '0'));
    if (why === 'differ' && differMm !== undefined) {
      const pad = Math.ceil(differMm / context.limit('pad') - ROUNDING);
      yield change(
        `Put a soft strip of ${context.length(pad)} at the moving jaw`,
        setHold(context, x.inTime.setup, 'pad', context.write(pad)),
      );
    }
    yield change('Hold one piece at a time', oneAlone(x, context));
  },
});

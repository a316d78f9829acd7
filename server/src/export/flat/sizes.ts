/** Overall sizes on a drawing: a line with arrows outside a view, its number above it (ISO 129-1). */
import type { BodyShape, Vec3 } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import type { Part } from '../../model/model';
import type { Placed } from './layout';
import { n, text } from './sheet-svg';
import { viewOf } from './view';

const LETTER = 3.5;
/** From the view to the size's line, mm. */
const OFF = 9;
const ARROW = 3;

/** Each axis once, on the first view that shows it. */
export function overallSizes(views: readonly Placed[], part: Part, body: BodyShape): readonly string[] {
  const told = new Set<string>();
  const order = [...views].sort((a, b) => rank(a) - rank(b));
  return order.flatMap((place) => {
    const view = viewOf(place.face, body.box.max as Vec3);
    const out: string[] = [];
    const right = told.has(view.right.axis) ? undefined : view.right.axis;
    const up = told.has(view.up.axis) ? undefined : view.up.axis;
    if (right) out.push(lying(place.x, place.x + view.width, place.y, word(part, body, right)));
    if (up) out.push(standing(place.x + view.width, place.y - view.height, place.y, word(part, body, up)));
    told.add(view.right.axis).add(view.up.axis);
    return out;
  });
}

/** The front view tells width and height, the one from above the depth. */
function rank({ face }: Placed): number {
  const i = ['front', 'top'].indexOf(face);
  return i < 0 ? 2 : i;
}

/** A size as it is written in the text where it has a tolerance: `40 ±0.05`. */
function word(part: Part, body: BodyShape, axis: 'x' | 'y' | 'z'): string {
  const size = String(Number(body.box.max[AXIS_INDEX[axis]].toFixed(4)));
  const across = body.form === 'round' && AXIS_INDEX[axis] !== body.axis;
  const written = part.body?.form === 'round' ? (across ? part.body.diameter : part.body.length) : part.body?.[axis];
  const tolerance = written?.tolerance ? ` ${written.tolerance.text}` : '';
  return `${across ? '⌀' : ''}${size}${tolerance}`;
}

function lying(x0: number, x1: number, y: number, words: string): string {
  const at = y + OFF;
  const d = `M${n(x0)} ${n(y + 1)}V${n(at + 1)}M${n(x1)} ${n(y + 1)}V${n(at + 1)}M${n(x0)} ${n(at)}H${n(x1)}`;
  const a = `M${n(x0)} ${n(at)}l${ARROW} -.5v1zM${n(x1)} ${n(at)}l-${ARROW} -.5v1z`;
  return size(d, a, text((x0 + x1) / 2, at - 1, LETTER, words, ' text-anchor="middle"'));
}

function standing(x: number, y0: number, y1: number, words: string): string {
  const at = x + OFF;
  const d = `M${n(x + 1)} ${n(y0)}H${n(at + 1)}M${n(x + 1)} ${n(y1)}H${n(at + 1)}M${n(at)} ${n(y0)}V${n(y1)}`;
  const a = `M${n(at)} ${n(y0)}l-.5 ${ARROW}h1zM${n(at)} ${n(y1)}l-.5 -${ARROW}h1z`;
  const [tx, ty] = [at - 1, (y0 + y1) / 2];
  const turned = ` text-anchor="middle" transform="rotate(-90 ${n(tx)} ${n(ty)})"`;
  return size(d, a, text(tx, ty, LETTER, words, turned));
}

function size(d: string, arrows: string, words: string): string {
  return `<g class="dimension"><path class="size" d="${d}"/><path class="arrow" d="${arrows}"/>${words}</g>`;
}

/**
 * What holds work that stands against an angle plate or lies in V-blocks, to size. The plate's upright side, as wide and high
 * as the shop says, in the middle of the work; straps 25 mm wide and high lie across the work from its nearer end, 10 mm
 * beyond where they press, each with a nut 17 mm high past the end. Of a V only what is as far out as its top edges.
 */
import { FACE_AXIS, FACE_PLANE, type Face, OPPOSITE, type Part, type Setup } from '../../server/src/model/model';
import type { Shop } from '../../server/src/model/shop-model';
import type { Block, Held } from './fixture';
import { axisOf } from './frame';
import type { View } from './view';

type Hold = NonNullable<Setup['hold']>;
type Span = readonly [number, number];

const STRAP = { half: 12.5, high: 25, beyond: 10, back: 60 } as const;
const NUT = { half: 12 * Math.SQRT1_2, high: 16.8, back: 25, past: 14 } as const;

/** How far the work reaches along each axis of the view, in the part's own numbers; heights turned up. */
function reachOf(v: View): { a: Span; b: Span; h: Span } {
  const low = [1e9, 1e9, 1e9];
  const high = [-1e9, -1e9, -1e9];
  for (let c = 0; c < v.work.length; c++) {
    if (!v.work[c]) continue;
    const i = c % v.na;
    const j = Math.floor(c / v.na) % v.nb;
    const k = Math.floor(c / (v.na * v.nb));
    const from = [v.edgeA[i]!, v.edgeB[j]!, v.bottom[k]!];
    const to = [v.edgeA[i + 1]!, v.edgeB[j + 1]!, v.top[k]!];
    for (let n = 0; n < 3; n++) {
      low[n] = Math.min(low[n]!, from[n]!);
      high[n] = Math.max(high[n]!, to[n]!);
    }
  }
  return { a: [low[0]!, high[0]!], b: [low[1]!, high[1]!], h: [low[2]!, high[2]!] };
}

export function againstPlate(v: View, hold: Hold, shop: Shop): Held {
  const plate = shop.anglePlates.find((p) => p.name === hold.anglePlate?.name);
  const against = hold.against?.name;
  if (!plate || !against) return { blocks: [], faults: ['plate'] };
  const work = reachOf(v);
  const onA = v.axes[0] === axisOf(against);
  const [across, along] = onA ? [work.a, work.b] : [work.b, work.a];
  const out = hold.out?.mm ?? work.h[1] - work.h[0] - plate.heightMm;
  const top = work.h[1] - out;
  const place = (what: Block['what'], x: Span, y: Span, h: Span): Block =>
    onA ? { what, a: x, b: y, h } : { what, a: y, b: x, h };
  const outward = (face: Face, from: number, by: number): Span => {
    const at = across[FACE_AXIS[face].sign > 0 ? 1 : 0] + FACE_AXIS[face].sign * from;
    const to = at + FACE_AXIS[face].sign * by;
    return [Math.min(at, to), Math.max(at, to)];
  };
  const middle = (along[0] + along[1]) / 2;
  const wide: Span = [middle - plate.widthMm / 2, middle + plate.widthMm / 2];
  const blocks = [place('jaw', outward(against, 0, plate.thicknessMm), wide, [top - plate.heightMm, top])];
  const faults = top > work.h[0] ? [] : ['plate'];
  const face = OPPOSITE[against];
  for (const { u, v: w } of hold.clamps ?? []) {
    const levelFirst = axisOf(FACE_PLANE[face][0] === 'x' ? 'right' : FACE_PLANE[face][0] === 'y' ? 'back' : 'top');
    const level = levelFirst === v.axes[2] ? w : u;
    const high = (levelFirst === v.axes[2] ? u : w) * v.sign;
    const toLow = level - along[0] <= along[1] - level;
    const end = toLow ? level - along[0] : along[1] - level;
    const dir = toLow ? -1 : 1;
    const span = (from: number, to: number): Span => [
      Math.min(level + dir * from, level + dir * to),
      Math.max(level + dir * from, level + dir * to),
    ];
    const stud = Math.max(NUT.back, end + NUT.past);
    blocks.push(
      place('clamp', outward(face, 0, STRAP.high), span(-STRAP.beyond, STRAP.back), [
        high - STRAP.half,
        high + STRAP.half,
      ]),
      place('clamp', outward(face, STRAP.high, NUT.high), span(stud - NUT.half, stud + NUT.half), [
        high - NUT.half,
        high + NUT.half,
      ]),
    );
  }
  return { blocks, faults };
}

/** Beside the V's edges, from its top down. */
export function blocksUnder(v: View, hold: Hold, shop: Shop, part: Part): readonly Block[] {
  const vee = shop.vBlocks.find((x) => x.name === hold.vBlock?.name);
  const { body } = part;
  if (!vee || body?.form !== 'round') return [];
  const work = reachOf(v);
  const lengthwise = { x: 0, y: 1, z: 2 }[body.axis];
  const onA = v.axes[0] === lengthwise;
  const across = onA ? work.b : work.a;
  const radius = (across[1] - across[0]) / 2;
  const middle = (across[0] + across[1]) / 2;
  const half = ((vee.angleDeg / 2) * Math.PI) / 180;
  const axis = work.h[1] - radius;
  const top = axis - radius / Math.sin(half) + vee.widthMm / 2 / Math.tan(half);
  const at = (hold.clamps ?? []).map((c) => (onA ? c.u : c.v));
  const ends = [Math.min(...at), Math.max(...at)];
  const spots = ends[1]! - ends[0]! < vee.lengthMm ? [(ends[0]! + ends[1]!) / 2] : ends;
  return spots.flatMap((x) =>
    [-1, 1].map((side): Block => {
      const y: Span = [middle + side * (vee.widthMm / 2), middle + side * (vee.widthMm / 2 + 6)];
      const out: Span = side < 0 ? [y[1], y[0]] : y;
      const long: Span = [x - vee.lengthMm / 2, x + vee.lengthMm / 2];
      const h: Span = [top - vee.heightMm, top];
      return onA ? { what: 'jaw', a: long, b: out, h } : { what: 'jaw', a: out, b: long, h };
    }),
  );
}

/** The field as it stands in one set-up: layers from the top down, each a sheet in the two axes across the spindle. */
import type { Face } from '../../server/src/model/model';
import { FACE_AXIS } from '../../server/src/model/model';
import type { Field } from './field';
import { axisOf, type Vec } from './frame';
import type { Sheet } from './transform';

export interface View {
  readonly up: Face;
  readonly axes: readonly [a: 0 | 1 | 2, b: 0 | 1 | 2, c: 0 | 1 | 2];
  readonly sign: 1 | -1;
  readonly sheet: Sheet;
  /** Borders of the cells along both axes. */
  readonly edgeA: Float64Array;
  readonly edgeB: Float64Array;
  readonly na: number;
  readonly nb: number;
  readonly layers: number;
  /** Heights of each layer, rising toward the spindle; layer 0 is the highest. */
  readonly top: Float64Array;
  readonly mid: Float64Array;
  readonly bottom: Float64Array;
  /** The workpiece as it is; changed by cuts. */
  readonly work: Uint8Array;
  readonly finished: Uint8Array;
  readonly local: (cell: number) => number;
}

export function viewOf(field: Field, work: Uint8Array, up: Face): View {
  const c = axisOf(up);
  const [a, b] = [0, 1, 2].filter((k) => k !== c) as [0 | 1 | 2, 0 | 1 | 2];
  const sign = FACE_AXIS[up].sign;
  const { grid } = field;
  const [na, nb, layers] = [grid.count[a], grid.count[b], grid.count[c]];
  const [sa, sb, sc] = [grid.stride[a], grid.stride[b], grid.stride[c]];
  const line = grid.lines[c];
  const at = (k: number) => (sign > 0 ? layers - 1 - k : k);
  const heights = (of: (k: number) => number) => Float64Array.from({ length: layers }, (_, k) => of(at(k)) * sign);
  const turned = (from: Uint8Array) => {
    const out = new Uint8Array(from.length);
    let n = 0;
    for (let k = 0; k < layers; k++)
      for (let j = 0; j < nb; j++) {
        const row = at(k) * sc + j * sb;
        for (let i = 0; i < na; i++) out[n++] = from[row + i * sa]!;
      }
    return out;
  };
  return {
    up,
    axes: [a, b, c],
    sign,
    sheet: { a: grid.lines[a].mid, b: grid.lines[b].mid },
    edgeA: grid.lines[a].edges,
    edgeB: grid.lines[b].edges,
    na,
    nb,
    layers,
    top: heights((k) => line.edges[sign > 0 ? k + 1 : k]!),
    bottom: heights((k) => line.edges[sign > 0 ? k : k + 1]!),
    mid: heights((k) => line.mid[k]!),
    work: turned(work),
    finished: turned(field.finished),
    local: (cell) => {
      const i = Math.floor(cell / sa) % na;
      const j = Math.floor(cell / sb) % nb;
      const k = Math.floor(cell / sc) % layers;
      return i + j * na + at(k) * na * nb;
    },
  };
}

/** The workpiece back in the part's own order of cells. */
export function workOf(field: Field, v: View): Uint8Array {
  const out = new Uint8Array(field.grid.size);
  const { stride } = field.grid;
  const [sa, sb, sc] = v.axes.map((k) => stride[k]) as [number, number, number];
  let n = 0;
  for (let k = 0; k < v.layers; k++)
    for (let j = 0; j < v.nb; j++) {
      const row = (v.sign > 0 ? v.layers - 1 - k : k) * sc + j * sb;
      for (let i = 0; i < v.na; i++) out[row + i * sa] = v.work[n++]!;
    }
  return out;
}

/** A place of the view in part axes. */
export function toPart(v: View, a: number, b: number, height: number): Vec {
  const p = [0, 0, 0];
  p[v.axes[0]] = a;
  p[v.axes[1]] = b;
  p[v.axes[2]] = height * v.sign;
  return p as unknown as Vec;
}

export function thickness(v: View, k: number): number {
  return v.top[k]! - v.bottom[k]!;
}

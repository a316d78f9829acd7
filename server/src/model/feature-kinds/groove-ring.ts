/** A groove on a face by the O-ring that lies in it: its diameter, width and depth, and what becomes of the ring. */
import { ringOfCode } from '../../tables/ring-codes';
import {
  DEEPER_MM,
  fillOf,
  HOUSING_SOURCE,
  HOUSINGS,
  housingFor,
  readRing,
  squeezeOf,
  WIDER_MM,
} from '../../tables/seals';
import { writeLength } from '../../text/format';
import { type MapNode, type ScalarNode, type Span, scalarAt } from '../../text/tree';
import type { Depth, Length } from '../base';
import { type Evaluation, textOf } from '../resolve/evaluation';
import { listed, quote } from '../resolve/problem';

export interface RingSeal {
  readonly insideMm: number;
  readonly sectionMm: number;
  /** Which side of it has the pressure: it lies at the wall away from that. */
  readonly pressure: 'inside' | 'outside';
  /** Least and most of its thickness that it loses, shares of 1. */
  readonly squeeze: readonly [number, number];
  /** Most of the groove that it fills, a share of 1. */
  readonly fill: number;
  readonly span: Span;
}

interface RingSizes {
  readonly diameter: Length;
  readonly width: Length;
  readonly depth: Depth;
  readonly ring: RingSeal;
}

/** Sizes that are written go before those of the housing. */
interface Given {
  readonly diameter?: Length | undefined;
  readonly width?: Length | undefined;
  readonly depth?: Depth | undefined;
}

/** A ring squeezed by more than this is cut when the faces meet; filling more, it has no room to swell. Common practice. */
const MOST_FILL = 0.95;

export function ringGroove(work: Evaluation, map: MapNode, given: Given): RingSizes | undefined {
  const node = scalarAt(map, 'ring')!;
  const read = readRing(textOf(node)) ?? ringOfCode(node.source);
  if (!read)
    return work.fail(
      `${quote(node.source)} is no O-ring. Write its inside diameter and its thickness in mm, like \`24x2\`, or its code of ISO 3601-1, like \`214\`.`,
      node.span,
    );
  const housing = housingFor(read.sectionMm);
  if (!housing && !(given.width && given.depth))
    return work.fail(
      `The tables have no groove for a ring ${read.sectionMm} mm thick: ${listed(HOUSINGS.filter((h) => h.iso).map((h) => String(h.sectionMm)))} are usual. Write another ring, or \`width\` and \`depth\`.`,
      node.span,
    );
  const pressure = scalarAt(map, 'pressure')?.value === 'outside' ? 'outside' : 'inside';
  const by = `O-ring ${read.insideMm}x${read.sectionMm} with pressure ${pressure}: ${HOUSING_SOURCE}`;
  const sized = (mm: number, moreMm: number): Length => toleranced(work, node, { mm, moreMm, from: by });
  const width = given.width ?? sized(housing!.widthMm, WIDER_MM);
  const length = given.depth?.length ?? sized(housing!.depthMm, DEEPER_MM);
  const depth = given.depth ?? { through: false, mm: length.mm, length, span: node.span };
  const innerMm = pressure === 'outside' ? read.insideMm : read.insideMm + 2 * (read.sectionMm - width.mm);
  if (innerMm <= 0)
    return work.fail(
      `A ring of ${read.insideMm} mm is too small for a groove ${width.mm} mm wide. Write a larger ring.`,
      node.span,
    );
  const diameter = given.diameter ?? {
    mm: innerMm,
    text: writeLength(innerMm, work.doc.units),
    span: node.span,
    from: by,
  };
  const ring = { ...read, pressure, ...shares(read.sectionMm, width, length), span: node.span } as const;
  return fits(work, ring, node) ? { diameter, width, depth, ring } : undefined;
}

function toleranced(
  work: Evaluation,
  { span }: ScalarNode,
  { mm, moreMm, from }: { readonly mm: number; readonly moreMm: number; readonly from: string },
): Length {
  const { units } = work.doc;
  const tolerance = { text: `+${writeLength(moreMm, units)}/-0`, upperMm: moreMm, lowerMm: 0, span };
  return { mm, text: writeLength(mm, units), span, from, tolerance };
}

function shares(sectionMm: number, width: Length, depth: Length): Pick<RingSeal, 'squeeze' | 'fill'> {
  const least = (l: Length) => l.mm + (l.tolerance?.lowerMm ?? 0);
  const most = (l: Length) => l.mm + (l.tolerance?.upperMm ?? 0);
  return {
    squeeze: [squeezeOf(sectionMm, most(depth)), squeezeOf(sectionMm, least(depth))],
    fill: fillOf(sectionMm, least(depth), least(width)),
  };
}

/** Whether the ring is squeezed at all, and has room. */
function fits(work: Evaluation, { squeeze, fill, sectionMm }: RingSeal, { span }: ScalarNode): boolean {
  if (squeeze[0] <= 0)
    work.fail(
      `The groove can be as deep as the ring is thick (${sectionMm} mm): nothing is squeezed. Make \`depth\` smaller.`,
      span,
    );
  else if (fill > MOST_FILL)
    work.fail(
      `The ring fills ${Math.round(fill * 100)} % of the groove. Make \`width\` larger: at most ${MOST_FILL * 100} % is filled.`,
      span,
    );
  return !work.broken;
}

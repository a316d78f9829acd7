/** The chip that one tooth of a cutter bears: by its size up to a size, and by the kind of its edge. */

import type { Mill, ToolMaterial } from '../../model/shop-model';
import { CHIP_GROWS_TO, type CuttingRow, EDGES, type Range } from '../../tables/cutting.data';

/** `disc`: a saw's or keyseat cutter's; `chamfer`: a cone's or a corner rounder's; `form`: the weak teeth of dovetail, T-slot and ring cutters. */
export type Edge = 'chamfer' | 'form' | 'disc';

/** The mill whose chip an engraver bears. Common practice, no source: 0.01 to 0.03 mm a tooth in aluminium. */
const ENGRAVER_MM = 2;

/** Surface speed for the kind of edge, m/min. */
export function edgeSpeed([low, high]: Range, cutter: ToolMaterial, edge?: Edge): Range {
  const { speed, most } = EDGES[edge ?? 'side'];
  const [mostLow, mostHigh] = most?.[cutter] ?? [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  return [Math.min(speed * low, mostLow), Math.min(speed * high, mostHigh)];
}

type Toothed = Pick<Mill, 'kind' | 'diameterMm' | 'material' | 'feedPerToothMm'>;

/** What a tooth is fed: within a range, so much where nothing is in the way; `own`: as the shop says of the tool. */
interface ToothFeed {
  readonly rangeMm: Range;
  readonly wantedMm: number;
  readonly own: boolean;
}

/** The shop's own feed is the most; what is too thin to be cut stays what the tables say, where that is less. */
export function toothFeed(row: CuttingRow, tool: Toothed, edge?: Edge): ToothFeed {
  const [low, high] = chipLoad(row, tool, edge);
  const { feedPerToothMm: own } = tool;
  if (own === undefined) return { rangeMm: [low, high], wantedMm: (low + high) / 2, own: false };
  return { rangeMm: [Math.min(low, own), own], wantedMm: own, own: true };
}

/** mm a tooth, from least to most, by the tables. */
function chipLoad(row: CuttingRow, tool: Toothed, edge?: Edge): Range {
  const [low, high] = row.chip[tool.material === 'carbide' ? 'carbide' : 'hss'];
  const most = tool.kind === 'face-mill' ? CHIP_GROWS_TO.face : CHIP_GROWS_TO[edge === 'chamfer' ? 'chamfer' : 'end'];
  // An engraver's edge is a cone's, as strong a little above its tip as a mill of a millimetre or two.
  const sizeMm = tool.kind === 'engraver' ? Math.max(tool.diameterMm, ENGRAVER_MM) : Math.min(tool.diameterMm, most);
  const share = EDGES[edge ?? 'side'].chip * sizeMm;
  return [low * share, high * share];
}

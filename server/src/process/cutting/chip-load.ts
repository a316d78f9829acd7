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

/** mm a tooth, from least to most. */
export function chipLoad(row: CuttingRow, tool: Pick<Mill, 'kind' | 'diameterMm' | 'material'>, edge?: Edge): Range {
  const [low, high] = row.chip[tool.material === 'carbide' ? 'carbide' : 'hss'];
  const most = tool.kind === 'face-mill' ? CHIP_GROWS_TO.face : CHIP_GROWS_TO[edge === 'chamfer' ? 'chamfer' : 'end'];
  // An engraver's edge is a cone's, as strong a little above its tip as a mill of a millimetre or two.
  const sizeMm = tool.kind === 'engraver' ? Math.max(tool.diameterMm, ENGRAVER_MM) : Math.min(tool.diameterMm, most);
  const share = EDGES[edge ?? 'side'].chip * sizeMm;
  return [low * share, high * share];
}

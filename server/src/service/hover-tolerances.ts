/** Hovers on toleranced dimensions: the chain between the two ends, and what a general tolerance comes to. */

import type { Part } from '../model/model';
import { valuesOf } from '../model/values';
import { addingOf } from '../process/stackup';
import { chainLines, chainTitle, partChains } from '../report/chains';
import { faceLines, finishLines, generalLine, positionLines } from '../report/tolerances';
import { coatedSizes } from '../rules/kit/coating';
import { formatLength } from '../text/format';
import { escapeMarkdown } from '../text/markdown';
import type { Span } from '../text/tree';
import type { PartSnapshot } from './snapshot';

export function toleranceText(snapshot: PartSnapshot, offset: number): string[] {
  const { checked } = snapshot;
  const { part, tree } = checked;
  const here = (span: Span) => {
    const { start, end } = tree.locate(span);
    return start <= offset && offset <= end;
  };
  const pieces: string[] = [];
  for (const chain of partChains(checked)) {
    if (!here(chain.of.span)) continue;
    const lines = chainLines(chain, part.units, addingOf(checked.shop));
    if (lines.length > 0)
      pieces.push(
        [`**Chain** ${escapeMarkdown(chainTitle(chain.of))}`, '', ...lines.map((l) => `- ${escapeMarkdown(l)}`)].join(
          '\n',
        ),
      );
  }
  for (const { tolerance, title, lines } of positionLines(part)) {
    if (!here(tolerance.value.span)) continue;
    pieces.push([`**${escapeMarkdown(title)}**`, '', ...lines.map((l) => `- ${escapeMarkdown(l)}`)].join('\n'));
  }
  for (const feature of part.features) {
    if (!feature.finish || !here(feature.finish.span)) continue;
    const lines = finishLines(feature, checked);
    if (lines.length > 0) pieces.push(lines.map((l) => `- ${escapeMarkdown(l)}`).join('\n'));
  }
  pieces.push(...coatText(part, here));
  if (!part.tolerance) return pieces;
  const ofFaces = here(part.tolerance.span) ? faceLines(part) : [];
  if (ofFaces.length > 0) pieces.push(ofFaces.map((l) => `- ${escapeMarkdown(l)}`).join('\n'));
  for (const { value } of valuesOf(part)) {
    if (value.from !== undefined || !here(value.span)) continue;
    const line = generalLine(value, part);
    if (line) pieces.push(escapeMarkdown(line));
  }
  return pieces;
}

/** What a coated size is cut to. */
function coatText(part: Part, here: (span: Span) => boolean): readonly string[] {
  return coatedSizes(part).flatMap(({ size, lowerMm, upperMm }) => {
    if (!here(size.length.span)) return [];
    const [low, high] = [lowerMm, upperMm].map((mm) => formatLength(size.length.mm + mm, part.units));
    return [`Cut to ${low} to ${high}: then the coat brings it within ${escapeMarkdown(size.tolerance.text)}.`];
  });
}

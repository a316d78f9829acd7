/**
 * What meets on a page though it must not: words and signs with each other, with lines, with the end of the field. Edges are
 * walked in short steps here, so that nothing is shared with how the layout itself asks.
 */
import { lengthOf, pointAt } from '../../server/src/geometry/2d/edge';
import type { Edge } from '../../server/src/geometry/types';
import { boxOfSaying } from '../../server/src/sheet/draw/boxes';
import type { Box, Mark } from '../../server/src/sheet/draw/marks';
import { fieldOf, type Page } from '../../server/src/sheet/page';

/** So much may touch, mm: rounding, and a line that a letter stands on. */
const HAIR = 0.05;
const STEP = 0.25;

export function clashesOn(page: Page): readonly string[] {
  const field = fieldOf(page);
  const said = page.marks.flatMap((m) => {
    const box = boxOfSaying(m);
    return box ? [{ box, what: m.type === 'words' ? m.words : m.type === 'sign' ? m.name : '' }] : [];
  });
  const found: string[] = [];
  for (const { box, what } of said) {
    if (box.x0 < -HAIR || box.y0 < -HAIR || box.x1 > field.w + HAIR || box.y1 > field.h + HAIR)
      found.push(`“${what}” leaves the field at ${at(box)}`);
  }
  for (const [i, a] of said.entries())
    for (const b of said.slice(i + 1))
      if (meet(a.box, b.box)) found.push(`“${a.what}” and “${b.what}” at ${at(a.box)}`);
  const cells = new Map<string, { box: Box; what: string }[]>();
  for (const s of said)
    for (let x = Math.floor(s.box.x0 / 10); x <= Math.floor(s.box.x1 / 10); x++)
      for (let y = Math.floor(s.box.y0 / 10); y <= Math.floor(s.box.y1 / 10); y++) {
        const key = `${x} ${y}`;
        cells.set(key, [...(cells.get(key) ?? []), s]);
      }
  const hit = new Set<string>();
  for (const { edge, half } of page.marks.flatMap(linesOf)) {
    const steps = Math.max(1, Math.ceil(lengthOf(edge) / STEP));
    for (let k = 0; k <= steps; k++) {
      const p = pointAt(edge, k / steps);
      if (p.u < -HAIR || p.v < -HAIR || p.u > field.w + HAIR || p.v > field.h + HAIR)
        hit.add(`a line leaves the field at ${p.u.toFixed(1)} ${p.v.toFixed(1)}`);
      for (const { box, what } of cells.get(`${Math.floor(p.u / 10)} ${Math.floor(p.v / 10)}`) ?? [])
        if (
          p.u > box.x0 - half + HAIR &&
          p.u < box.x1 + half - HAIR &&
          p.v > box.y0 - half + HAIR &&
          p.v < box.y1 + half - HAIR
        )
          hit.add(`a line through “${what}” at ${at(box)}`);
    }
  }
  return [...found, ...hit];
}

/** Lines with half their width; outlines of what is filled, but for what is filled behind white words. */
function linesOf(m: Mark): readonly { edge: Edge; half: number }[] {
  if (m.type === 'stroke') return m.edges.map((edge) => ({ edge, half: m.width / 2 }));
  return m.type === 'fill' ? m.loops.flat().map((edge) => ({ edge, half: 0 })) : [];
}

function meet(a: Box, b: Box): boolean {
  return a.x0 < b.x1 - HAIR && b.x0 < a.x1 - HAIR && a.y0 < b.y1 - HAIR && b.y0 < a.y1 - HAIR;
}

function at({ x0, y0 }: Box): string {
  return `${x0.toFixed(1)} ${y0.toFixed(1)}`;
}

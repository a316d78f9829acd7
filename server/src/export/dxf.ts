/**
 * A part's outline for a cutter that goes straight through a sheet (laser, water jet, router), as DXF in mm: what is
 * left of the part when everything that goes all the way through along one axis is cut.
 */

import { within } from '../effort';
import { lengthOf } from '../geometry/2d/edge';
import type { Loop } from '../geometry/types';
import { FACES, type Face } from '../model/faces';
import { cutsOf, type FlatCut, faceWithMostCuts } from './flat/cuts';
import { DxfFile } from './flat/dxf-file';
import { ExportError, type Writer } from './writer';

/** What the file's parts are called: our own plain words. */
const LAYERS = { outline: 'outline', through: 'through', partial: 'partial-depth' } as const;

/** Looks at an edge that one drawing may cost. */
const MOST_LOOKS = 2e8;

export const dxfWriter: Writer = {
  extensions: ['.dxf'],
  title: 'DXF: the outline of one face, for a laser, water jet or router',
  perFace: true,
  async write({ checked, face }) {
    const { solid, part } = checked;
    const chosen = face ?? faceWithMostCuts(solid, part);
    const cut = within(
      { remaining: MOST_LOOKS },
      () => cutsOf(solid, part, chosen),
      () => undefined,
    );
    if (!cut) throw new ExportError(`its outline from \`${chosen}\` is too tangled to follow; try another face`);
    const notes = [...(face ? [] : [chosenNote(chosen)]), ...leftNotes(cut)];
    return { bytes: new TextEncoder().encode(dxfOf(cut)), notes };
  },
};

function chosenNote(face: Face): string {
  const others = FACES.filter((f) => f !== face);
  return `drawn from \`${face}\`, where most is cut through; --face ${others[0]} (or another) draws that one.`;
}

function leftNotes({ face, notCut: left, partial }: FlatCut): readonly string[] {
  if (left.length === 0) return [];
  const names = left.map((l) => `\`${l.feature}\` (${l.why})`).join(', ');
  const drawn = partial.length > 0 ? ` Outlines of what does not go through are on the layer ${LAYERS.partial}.` : '';
  return [`a cut straight through from \`${face}\` does not make ${names}.${drawn}`];
}

/** The whole file. Loops that are one circle are circles, others closed chains of lines and arcs. */
function dxfOf(cut: FlatCut): string {
  const file = new DxfFile(Object.values(LAYERS));
  const draw = (layer: string, loop: Loop) => {
    if (loop.edges.some((e) => lengthOf(e) > 0)) file.loop(layer, loop);
  };
  for (const { outer, holes } of cut.material) {
    draw(LAYERS.outline, outer);
    for (const hole of holes) draw(LAYERS.through, hole);
  }
  for (const { outer, holes } of cut.partial) for (const loop of [outer, ...holes]) draw(LAYERS.partial, loop);
  return file.text();
}

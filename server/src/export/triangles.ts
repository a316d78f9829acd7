/** The part as one closed mesh, for formats that carry triangles. */
import type { ClosedMesh } from '../geometry/mesh/closed';
import type { BodyShape, Void } from '../geometry/types';
import { memberOf } from '../rules/kit/message';
import { ExportError, type ExportRequest } from './writer';

/** Makes closed meshes; on Node a thread of its own. */
export interface TriangleMaker {
  /** Undefined where the body cannot be drawn. Rejects with one clear message. */
  closed(body: BodyShape, voids: readonly Void[], chordMm: number): Promise<ClosedMesh | undefined>;
}

/** How far a chord may stray from its arc in a file, mm: finer than the resolution of what reads such files. */
export const FILE_CHORD_MM = 0.01;

export interface Triangles extends Pick<ClosedMesh, 'points' | 'triangles'> {
  readonly notes: readonly string[];
}

export async function trianglesOf({ checked }: ExportRequest, maker: TriangleMaker): Promise<Triangles> {
  const { body, voids } = checked.solid;
  const made = await maker.closed(body, voids, FILE_CHORD_MM).catch((error: unknown) => {
    throw new ExportError(error instanceof Error ? error.message : String(error));
  });
  if (!made) throw new ExportError('its body could not be drawn as a mesh.');
  const lost = voids[made.missing[0] ?? -1];
  if (lost) throw new ExportError(`${memberOf(lost)} could not be drawn as a mesh; a .step file can carry it.`);
  if (made.triangles.length === 0) throw new ExportError('nothing of it is left: its features cut it all away.');
  const notes = [`curves are drawn with chords within ${FILE_CHORD_MM} mm; for true cylinders write a .step file.`];
  if (made.pieces > 1) notes.push(`the part is in ${made.pieces} pieces; the mesh has as many shells.`);
  return { points: made.points, triangles: made.triangles, notes };
}

/** A part as a file, for an editor: which formats there are, and the file's bytes. The editor asks where it goes and writes it. */

import { cautionOn, ExportError, unwritable, type Writer, writerFor } from '../export/writer';
import { base64Of } from '../geometry/mesh/base64';
import type { ExportAnswer, ExportParams, Format } from './export-protocol';
import type { Snapshot } from './snapshot';

export function formatsOf(writers: readonly Writer[]): readonly Format[] {
  return writers.map(({ extensions, title, perFace, drawing }) => ({
    extensions: extensions.map((e) => e.slice(1)),
    title,
    perFace: perFace === true,
    drawing: drawing === true,
  }));
}

export async function exportOf(
  snapshot: Snapshot | undefined,
  { name, face, drawing }: ExportParams,
  writers: readonly Writer[],
  creator: string,
): Promise<ExportAnswer> {
  if (snapshot?.kind !== 'part') return { trouble: 'Only a part can be exported.' };
  const writer = writerFor(name, writers, drawing);
  if (!writer) {
    const known = writers.flatMap((w) => w.extensions).join(', ');
    return { trouble: `${name} is no format that can be written: its name ends in one of ${known}.` };
  }
  const { checked } = snapshot;
  const why = unwritable(checked);
  if (why) return { trouble: `${checked.part.name} cannot be exported: ${why}.` };
  try {
    const request = { checked, creator, when: new Date() };
    const { bytes, notes } = await writer.write(face === undefined ? request : { ...request, face });
    return { base64: base64Of(bytes), notes: [...notes, ...cautionOn(checked)] };
  } catch (error) {
    if (error instanceof ExportError) return { trouble: error.message };
    throw error;
  }
}

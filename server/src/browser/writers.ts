/** The formats that a part can be written in without a disk: all but those that need the exact kernel or the PDF’s fonts. */
import { dxfWriter } from '../export/dxf';
import { stlWriter } from '../export/stl';
import { svgWriter } from '../export/svg';
import { threemfWriter } from '../export/threemf';
import type { TriangleMaker } from '../export/triangles';
import type { Writer } from '../export/writer';

export const writersWith = (meshes: TriangleMaker): readonly Writer[] => [
  stlWriter(meshes),
  threemfWriter(meshes),
  dxfWriter,
  svgWriter,
];

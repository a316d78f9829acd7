/** The formats that a part can be written in in a browser: the same as on Node. */
import { dxfWriter } from '../export/dxf';
import { stlWriter } from '../export/stl';
import { svgWriter } from '../export/svg';
import { threemfWriter } from '../export/threemf';
import type { Writer } from '../export/writer';
import { partPage } from '../page/part';
import type { MeshQueue } from '../service/beside/mesh-queue';
import { drawingWriters } from '../sheet/drawing/printed';
import type { PdfKit } from '../sheet/write/pdf';
import { exactWriter } from './exact';
import type { Own } from './own';
import { pageKitOf } from './print';

interface With {
  readonly own: Own;
  readonly meshes: MeshQueue;
  /** Whether this worker may start others. */
  readonly threads: boolean;
  print(): Promise<PdfKit>;
}

export const writersWith = ({ own, meshes, threads, print }: With): readonly Writer[] => [
  exactWriter(own, threads),
  stlWriter(meshes),
  threemfWriter(meshes),
  dxfWriter,
  svgWriter,
  {
    extensions: ['.html'],
    title: 'HTML: one page for any browser, its view can be turned',
    write: async (request) => partPage(request, meshes, await pageKitOf(own)),
  },
  ...drawingWriters(print),
];

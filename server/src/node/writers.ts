/** The formats a part can be written in. A new one is a `Writer` in export/, and an entry here. */
import { dxfWriter } from '../export/dxf';
import { stepWriter } from '../export/step';
import { stlWriter } from '../export/stl';
import { svgWriter } from '../export/svg';
import { threemfWriter } from '../export/threemf';
import type { Writer } from '../export/writer';
import { drawingWriters } from '../sheet/drawing/printed';
import { sharedExact } from './exact-thread';
import { sharedMeshes } from './mesher';
import { pageWriter } from './page-writer';
import { pdfKit } from './print';

export const WRITERS: readonly Writer[] = [
  stepWriter(sharedExact),
  stlWriter(sharedMeshes()),
  threemfWriter(sharedMeshes()),
  dxfWriter,
  svgWriter,
  pageWriter,
  ...drawingWriters(pdfKit),
];

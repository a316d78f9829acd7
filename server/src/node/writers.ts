/** The formats a part can be written in. A new one is a `Writer` in exchange/, and an entry here. */
import { dxfWriter } from '../exchange/dxf';
import { stepWriter } from '../exchange/step';
import { stlWriter } from '../exchange/stl';
import { svgWriter } from '../exchange/svg';
import { threemfWriter } from '../exchange/threemf';
import type { Writer } from '../exchange/writer';
import { sharedExact } from './exact-thread';
import { sharedMeshes } from './mesher';

export const WRITERS: readonly Writer[] = [
  stepWriter(sharedExact),
  stlWriter(sharedMeshes()),
  threemfWriter(sharedMeshes()),
  dxfWriter,
  svgWriter,
];

/**
 * The exact kernel as an oracle: a part's solid built once more from planes, cylinders, cones and tori by a kernel that
 * shares no arithmetic with ours (Open CASCADE, through the npm package `replicad-opencascadejs`).
 */
import init from 'replicad-opencascadejs';
import type { Oc, Shape } from '../../server/src/export/exact/kernel';
import { type ExactMeasures, exactMeasures } from '../../server/src/export/exact/measures';
import { type Cuttings, exactSolid } from '../../server/src/export/exact/solid';

let loading: Promise<Oc> | undefined;

/** The kernel, loaded once a process (about 0.6 s). What it prints is left out. */
export function exactKernel(): Promise<Oc> {
  loading ??= init({ print: () => {}, printErr: () => {} });
  return loading;
}

export interface ExactPart extends ExactMeasures {
  /** Deleted by `release`. */
  readonly shape: Shape;
  release(): void;
}

/** A part's solid built exactly, with its measures. The kernel is not told what we make of the volume. */
export async function exactPart({ body, voids }: Cuttings): Promise<ExactPart> {
  const oc = await exactKernel();
  const shape = exactSolid(oc, { body, voids });
  return { ...exactMeasures(oc, shape), shape, release: () => shape.delete() };
}

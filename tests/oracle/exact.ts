/**
 * The exact kernel as an oracle: a part's solid built once more from planes, cylinders, cones and tori by a kernel that
 * shares no arithmetic with ours (Open CASCADE, through the npm package `replicad-opencascadejs`).
 */
import init from 'replicad-opencascadejs';
import type { Oc, Shape } from '../../server/src/export/exact/kernel';
import { type ExactMeasures, exactDistance, exactMeasures } from '../../server/src/export/exact/measures';
import { type Cuttings, exactSolid, exactVolume } from '../../server/src/export/exact/solid';
import { solidOf } from '../../server/src/geometry/part-solid';
import type { Void } from '../../server/src/geometry/types';
import { resolvePart } from '../../server/src/model/part';
import { readText } from '../../server/src/text/read';

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

/** The same from a part's text. */
export function exactPartOf(text: string): Promise<ExactPart> {
  return exactPart(solidOf(resolvePart(readText(text))));
}

/** Measures only; the solid is let go. */
export async function measuredExactly(cuttings: Cuttings): Promise<ExactMeasures> {
  const { release, shape: _, ...measures } = await exactPart(cuttings);
  release();
  return measures;
}

/** Least distance between two removed volumes, mm: 0 where they meet. */
export async function distanceBetween(a: Void, b: Void): Promise<number> {
  const oc = await exactKernel();
  const [p, q] = [exactVolume(oc, a), exactVolume(oc, b)];
  try {
    return exactDistance(oc, p, q);
  } finally {
    p.delete();
    q.delete();
  }
}

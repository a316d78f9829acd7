/** What the thread that makes exact solids does: one order after the other. */
import { ExactError, type Oc } from '../../export/exact/kernel';
import { exactMeasures } from '../../export/exact/measures';
import { exactSolid } from '../../export/exact/solid';
import { stepText } from '../../export/exact/step';
import type { FromExact, ToExact } from './exact-queue';

export interface LoadedExact {
  readonly oc: Oc;
  /** Bytes that its memory has grown to; it never shrinks. */
  memoryBytes(): number;
}

/** It tells how much memory it has come to, so that whoever started the thread can let it go. */
export function exactAnswer({ oc, memoryBytes }: LoadedExact, asked: ToExact): FromExact {
  return { ...answer(oc, asked), memoryBytes: memoryBytes() };
}

function answer(oc: Oc, { order, cuttings }: ToExact): Omit<FromExact, 'memoryBytes'> {
  try {
    const shape = exactSolid(oc, cuttings);
    try {
      return { order, made: { measures: exactMeasures(oc, shape, true), text: stepText(oc, shape) } };
    } finally {
      shape.delete();
    }
  } catch (error) {
    if (error instanceof ExactError) return { order, trouble: error.message };
    return {
      order,
      trouble: `The exact solid could not be made: ${error instanceof Error ? error.message : String(error)}.`,
    };
  }
}

/** Undercuts of external metric threads at a shoulder, by pitch. */
import { HAIR } from '../tolerance';
import type { Thread } from './thread-form';
import { DIN_76_B, ISO_4755 } from './thread-undercuts.data';

export type UndercutSeries = 'regular' | 'short';

interface ThreadUndercut {
  readonly diameterMm: number;
  /** From the shoulder to where the thread may begin: the least that is as deep as said, and the most to the thread itself. */
  readonly leastMm: number;
  readonly mostMm: number;
  /** Of the corner at the shoulder, about. */
  readonly radiusMm: number;
  readonly source: string;
}

/** Undefined for a pitch that is in no table: an inch thread's. */
export function threadUndercut({ diameterMm, pitchMm }: Thread, series: UndercutSeries): ThreadUndercut | undefined {
  const row = ISO_4755.find(([pitch]) => Math.abs(pitch - pitchMm) < HAIR);
  if (!row) return undefined;
  const [pitch, off, least, most, radiusMm] = row;
  const [leastMm, mostMm] = (series === 'short' ? DIN_76_B[String(pitch)] : undefined) ?? [least, most];
  const source = series === 'short' ? 'DIN 76-1 form B' : 'ISO 4755';
  return { diameterMm: diameterMm - off, leastMm, mostMm, radiusMm, source };
}

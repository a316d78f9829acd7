/** Form taps press a thread in and make no chips: the metal rises, so the hole before is wider than for a tap that cuts. */
import type { Thread } from './thread-form';

const FORM_TAP = {
  /** Of the pitch, for each percent of thread. */
  share: 0.0068,
  usualPercent: 65,
  source:
    'hole = D − 0.0068 · percent · P, 65 % usual: a public machinists’ calculator with a worked example (1/2-13 at 65 %: 0.4660 in; read on datumcalc.com)',
} as const;

/** The hole that a form tap fills to so many percent of thread, mm. */
export function formHoleMm({ diameterMm, pitchMm }: Thread, percent: number = FORM_TAP.usualPercent): number {
  return diameterMm - FORM_TAP.share * percent * pitchMm;
}

/** Percent of thread that a form tap makes of a hole: over 100 the metal has nowhere to go, and the tap breaks. */
export function formPercent({ diameterMm, pitchMm }: Thread, holeMm: number): number {
  return (diameterMm - holeMm) / (FORM_TAP.share * pitchMm);
}

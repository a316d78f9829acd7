/** Screw threads: metric coarse and fine (ISO 261 / 965), unified coarse and fine (ASME B1.1). Filled from published tables. */

export interface Thread {
  /** `M5`, `M8x1`, `#10-24 UNC`. */
  readonly designation: string;
  readonly series: 'coarse' | 'fine' | 'UNC' | 'UNF';
  readonly diameterMm: number;
  readonly pitchMm: number;
  readonly tapDrillMm: number;
  readonly source: string;
}

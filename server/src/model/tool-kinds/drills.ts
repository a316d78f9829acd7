/** Tools that go straight down and make a hole as wide as they are. */
import type { ToolBase } from './kind';

export interface Drill extends ToolBase {
  readonly kind: 'drill' | 'spot-drill' | 'flat-drill';
  readonly fluteLengthMm: number;
  readonly pointDeg: number;
}

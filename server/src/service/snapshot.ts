/** What is known of a document at one moment: its text, what it came to, what was found. */
import type { CheckedJob, CheckedPart, CheckedShop } from '../rules/check';
import type { Finding } from '../rules/rule';
import type { Lines } from '../text/lines';

interface SnapshotBase {
  readonly path: string;
  readonly text: string;
  readonly lines: Lines;
  readonly findings: readonly Finding[];
}
export interface PartSnapshot extends SnapshotBase {
  readonly kind: 'part';
  readonly checked: CheckedPart;
  /** The shop file it is judged by; undefined for the built-in shop. */
  readonly shopPath: string | undefined;
}
export interface ShopSnapshot extends SnapshotBase {
  readonly kind: 'shop';
  readonly checked: CheckedShop;
}
export interface JobSnapshot extends SnapshotBase {
  readonly kind: 'job';
  readonly checked: CheckedJob;
}
export type Snapshot = PartSnapshot | ShopSnapshot | JobSnapshot;

/** What is known of a document at a time: its text, what it means, what was found of it. */

import type { JobPiece } from '../planning/job';
import type { JudgedRecord } from '../report/record/record';
import type { CheckedJob, CheckedRecord, CheckedShop } from '../rules/check';
import type { CheckedPart } from '../rules/checked-part';
import type { Finding } from '../rules/kit/rule';
import { inTextOrder } from '../rules/order';
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
  /** Found beside the rules: what is wrong with its shop, what the planner found. */
  readonly besides: readonly Finding[];
}
export interface ShopSnapshot extends SnapshotBase {
  readonly kind: 'shop';
  readonly checked: CheckedShop;
}
export interface JobSnapshot extends SnapshotBase {
  readonly kind: 'job';
  readonly checked: CheckedJob;
  /** Those of its parts that could be read. */
  readonly pieces: readonly JobPiece[];
}
export interface RecordSnapshot extends SnapshotBase {
  readonly kind: 'record';
  readonly checked: CheckedRecord;
  /** What it is a record of, where that can be read; and the record beside it. */
  readonly part?: PartSnapshot;
  readonly judged?: JudgedRecord;
}
/** A job's piece with its part's text. */
export interface PieceSnapshot extends JobPiece {
  readonly snapshot: PartSnapshot;
}
/** A job with its parts, before anything is found of it. */
export type JobRead = Omit<JobSnapshot, 'findings'>;
export type Snapshot = PartSnapshot | ShopSnapshot | JobSnapshot | RecordSnapshot;

/** A part with all that is found of it; judged when that is asked for. */
class WholePart implements PartSnapshot {
  readonly kind = 'part';
  readonly path: string;
  readonly text: string;
  readonly lines: Lines;
  readonly checked: CheckedPart;
  readonly shopPath: string | undefined;
  readonly besides: readonly Finding[];
  #all: readonly Finding[] | undefined;

  constructor(of: Omit<PartSnapshot, 'kind' | 'findings'>) {
    this.path = of.path;
    this.text = of.text;
    this.lines = of.lines;
    this.checked = of.checked;
    this.shopPath = of.shopPath;
    this.besides = of.besides;
  }

  get findings(): readonly Finding[] {
    this.#all ??= together(this, this.checked.findings);
    return this.#all;
  }
}

export function wholePart(of: Omit<PartSnapshot, 'kind' | 'findings'>): PartSnapshot {
  return new WholePart(of);
}

/** A part with what its rules have found by now. */
export function partSoFar(part: PartSnapshot, found: readonly Finding[]): PartSnapshot {
  return partShowing(part, together(part, found));
}

/** A part with just these findings. */
export function partShowing(part: PartSnapshot, findings: readonly Finding[]): PartSnapshot {
  const { path, text, lines, checked, shopPath, besides } = part;
  return { kind: 'part', path, text, lines, checked, shopPath, besides, findings };
}

/** A part with more that was found of it beside the rules. */
export function partWith(part: PartSnapshot, more: readonly Finding[]): PartSnapshot {
  const { path, text, lines, checked, shopPath } = part;
  const findings = inTextOrder([...part.findings, ...more], checked.tree);
  return { kind: 'part', path, text, lines, checked, shopPath, besides: [...part.besides, ...more], findings };
}

function together({ besides, checked }: Pick<PartSnapshot, 'besides' | 'checked'>, found: readonly Finding[]) {
  return besides.length === 0 ? found : inTextOrder([...found, ...besides], checked.tree);
}

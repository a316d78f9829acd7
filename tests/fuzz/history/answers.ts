/** What a service answers: all of it is a value, so that two services can be compared. */
import assert from 'node:assert/strict';
import { plannerFindings } from '../../../server/src/planning/findings';
import { knownPlan, planFor } from '../../../server/src/planning/plan-cache';
import { figuresAtHand } from '../../../server/src/report/at-hand';
import { figuresOf, spentFigures } from '../../../server/src/report/figures';
import { fixesFor } from '../../../server/src/rules/check';
import { actionsOf } from '../../../server/src/service/actions';
import { completionsAt } from '../../../server/src/service/completion';
import { hoverAt } from '../../../server/src/service/hover';
import { inlaysOf } from '../../../server/src/service/inlays';
import { lensesOf } from '../../../server/src/service/lenses';
import { symbolsOf } from '../../../server/src/service/outline';
import type { Snapshot } from '../../../server/src/service/snapshot';
import type { World } from './world';

export type Question = 'findings' | 'fixes' | 'figures' | 'hover' | 'lens' | 'list' | 'walls' | 'plan' | 'planner';

/** One question to one document; `at` says where, from 0 to 1. */
export interface Ask {
  readonly ask: Question;
  readonly path: string;
  readonly at: number;
}

/** The answer; undefined where there is no such document. A plan is the only one that costs more than a moment. */
export async function answer(world: World, { ask, path, at }: Ask): Promise<unknown> {
  const snapshot = await world.service.snapshot(path);
  if (!snapshot) return undefined;
  const offset = Math.floor(at * snapshot.text.length);
  if (ask === 'findings') return { findings: snapshot.findings, shop: 'shopPath' in snapshot && snapshot.shopPath };
  if (ask === 'hover') return [hoverAt(snapshot, offset), completionsAt(snapshot, offset)];
  if (ask === 'lens') return lensesOf(world.service, snapshot, async (part) => figuresAtHand(part.checked));
  if (ask === 'list') return [symbolsOf(snapshot), inlaysOf(snapshot, whole(snapshot))];
  if (ask === 'fixes') return fixesAt(snapshot, at);
  return snapshot.kind === 'part' ? ofPart(snapshot, ask, at) : undefined;
}

function whole({ lines, text }: Snapshot): {
  start: { line: number; character: number };
  end: ReturnType<typeof lines.position>;
} {
  return { start: { line: 0, character: 0 }, end: lines.position(text.length) };
}

function fixesAt(snapshot: Snapshot, at: number): unknown {
  const finding = snapshot.findings[Math.floor(at * snapshot.findings.length)];
  if (!finding) return [];
  const { start, end } = snapshot.checked.tree.locate(finding.span);
  const range = { start: snapshot.lines.position(start), end: snapshot.lines.position(end) };
  const tried = snapshot.kind === 'part' ? fixesFor(snapshot.checked, finding) : finding.fixes;
  return { finding, tried, actions: actionsOf(snapshot, range, ['quickfix']) };
}

function ofPart({ checked }: Extract<Snapshot, { kind: 'part' }>, ask: Question, at: number): unknown {
  if (ask === 'figures') return [figuresOf(checked), spentFigures(checked), figuresAtHand(checked)];
  if (ask === 'walls') return checked.part.body && checked.solid.walls([1, 2.5, 6][Math.floor(at * 3)]!);
  if (ask === 'plan') return planFor(checked)?.setups.map((s) => [s.setup, s.warnings]);
  return plannerFindings(checked);
}

/** Whether times and lenses of this document are by a plan, which is a matter of what was asked: then the other is to plan too. */
export async function samePlans(known: World, other: World, paths: readonly string[]): Promise<void> {
  for (const path of paths) {
    const [one, two] = [await known.service.snapshot(path), await other.service.snapshot(path)];
    if (one?.kind === 'part' && two?.kind === 'part' && knownPlan(one.checked)) planFor(two.checked);
  }
}

/** Fails where the two differ, with the first difference in words. */
export function assertSame(told: unknown, anew: unknown, what: string): void {
  try {
    assert.deepEqual(told, anew);
  } catch (failure) {
    assert.fail(`${what}: ${(failure as Error).message.slice(0, 4000)}`);
  }
}

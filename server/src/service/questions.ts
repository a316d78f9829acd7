/**
 * What is asked about a part that can take long. Each question is answered from a part's snapshot alone, with plain data,
 * so that any thread that has text and shop gives the same answer.
 */

import type { JobChange } from '../compare/job';
import type { ComparedPart } from '../compare/json';
import { type ComparedJobsTold, type ComparedTold, comparedJobs, comparedWith } from '../compare/with';
import type { DayAsk } from '../planning/day-plan/types';
import { plannerFindings } from '../planning/findings';
import type { JobPiece } from '../planning/job';
import type { Plan } from '../planning/plan';
import { knownPlan, planFor, rememberPlan } from '../planning/plan-cache';
import { type Figure, figuresAtHand } from '../report/at-hand';
import { type ToolToBuy, toolToBuy } from '../report/job-figures';
import { checkPart } from '../rules/check';
import type { CheckedPart } from '../rules/checked-part';
import type { Finding } from '../rules/kit/rule';
import { variantFindings } from '../rules/variants';
import { daysOf, type PartOfJob, partOfJob } from '../sheet/job/data';
import type { Others } from '../text/tree';
import { actionsOf } from './actions';
import { hoverAt, type Unwritten } from './hover';
import { inlaysOf } from './inlays';
import { type PlanAnswer, planAnswer } from './plan/answer';
import type { CodeAction, Hover, InlayHint, Range } from './shapes';
import { type SheetReply, type SheetTold, sheetReply } from './sheet';
import { type PartSnapshot, partShowing, partSoFar } from './snapshot';
import { type StarterTold, startedPart } from './starter/part';
import type { StarterAnswer } from './starter/protocol';
import { VIEW_ANSWERS, type ViewQuestions } from './view/answers';

export interface PlanReply {
  /** Absent where none was looked for; null where there is none: no body, no vise. */
  readonly plan?: Plan | null;
  readonly findings?: readonly Finding[];
  readonly answer?: PlanAnswer | null;
}

/** With the findings that are known there: a hover does not wait for the rest. */
interface HoverTold {
  readonly offset: number;
  readonly findings: readonly Finding[];
  readonly pagesUri?: string;
  readonly met?: readonly string[];
  readonly without?: readonly Unwritten[] | undefined;
}

interface ToBuyTold {
  readonly name: string;
  readonly otherParts: readonly { readonly name: string; readonly text: string; readonly others?: Others }[];
}

/** By name: what is told with the question, and what is answered. */
export interface Questions extends ViewQuestions {
  /** What one rule raises, accepted or not. */
  rule: { told: { readonly name: string }; answer: readonly Finding[] };
  /** What the planner finds without being asked; the plan itself; or the plan with all that is said of it. */
  plan: { told: { readonly want: 'findings' | 'plan' | 'answer' }; answer: PlanReply };
  figures: { told: object; answer: readonly Figure[] };
  hover: { told: HoverTold; answer: Hover | null };
  inlays: { told: { readonly range: Range }; answer: readonly InlayHint[] };
  /** The pages that are carried to the machine. */
  sheet: { told: SheetTold; answer: SheetReply };
  /** A part to begin; of the snapshot only the shop counts. */
  starter: { told: StarterTold; answer: StarterAnswer };
  /** What one part brings to its job's paper. */
  ofJob: { told: Pick<JobPiece, 'entry' | 'quantity'>; answer: PartOfJob };
  /** What changed from another revision to this one. */
  compared: { told: ComparedTold; answer: Pick<ComparedPart, 'change' | 'today'> };
  /** What changed from one revision of a job to another; of the snapshot nothing counts. */
  comparedJobs: { told: ComparedJobsTold; answer: JobChange };
  /** The order of a job's day; it turns on no part. */
  days: { told: { readonly ask: DayAsk }; answer: ReturnType<typeof daysOf> };
  /** The one tool that would cure most of a job: this part's, called `name`, and those of others of the same shop. */
  toBuy: { told: ToBuyTold; answer: ToolToBuy | null };
  actions: {
    told: { readonly range: Range; readonly only?: readonly string[] | undefined };
    answer: readonly CodeAction[];
  };
}
export type Question = keyof Questions;

const ANSWERS: { readonly [Q in Question]: (of: PartSnapshot, told: Questions[Q]['told']) => Questions[Q]['answer'] } =
  {
    rule: ({ checked }, { name }) => checked.judging.judge(name),
    plan: (of, { want }) => planReply(of, want),
    figures: ({ checked }) => figuresAtHand(checked),
    hover: (of, { offset, findings, pagesUri, met = [], without }) =>
      hoverAt(partShowing(of, findings), offset, { pagesUri, met, without }) ?? null,
    inlays: (of, { range }) => inlaysOf(of, range),
    ...VIEW_ANSWERS,
    sheet: sheetReply,
    starter: ({ checked }, told) => startedPart(told, checked.shop),
    ofJob: ({ checked }, piece) => partOfJob({ ...piece, checked }),
    compared: ({ checked }, told) => comparedWith(checked, told),
    comparedJobs: (_, told) => comparedJobs(told),
    days: (_, { ask }) => daysOf(ask),
    toBuy: ({ checked }, { name, otherParts: others }) => {
      const all = others.map((o) => ({ entry: o, checked: checkPart(o.text, checked.shop, undefined, o.others) }));
      return toolToBuy([{ entry: { name }, checked }, ...all]) ?? null;
    },
    actions: (of, { range, only }) => actionsOf(of, range, only),
  };

export function answerTo<Q extends Question>(
  question: Q,
  of: PartSnapshot,
  told: Questions[Q]['told'],
): Questions[Q]['answer'] {
  return ANSWERS[question](of, told);
}

function planReply(of: PartSnapshot, want: Questions['plan']['told']['want']): PlanReply {
  const { checked } = of;
  if (want === 'findings') {
    // A part without set-ups has its plan told above it: then it is there when it is asked for, and prices are by it.
    if (!checked.part.setups) planFor(checked);
    const findings = [...variantFindings(checked), ...plannerFindings(checked)];
    const plan = knownPlan(checked);
    return { findings, ...(plan || !checked.part.setups ? { plan: plan ?? null } : {}) };
  }
  const plan = planFor(checked) ?? null;
  return want === 'plan' ? { plan } : { plan, answer: planAnswer(asRead(of)) ?? null };
}

/** Whether a plan may be written turns on what the text lacks, which is known without judging. */
function asRead(of: PartSnapshot): PartSnapshot {
  return partSoFar(
    of,
    of.checked.judging.soFar(() => []),
  );
}

/** Takes over the plan that came with an answer. */
export function takePlan(checked: CheckedPart, { plan }: PlanReply): void {
  if (plan !== undefined) rememberPlan(checked, plan ?? undefined);
}

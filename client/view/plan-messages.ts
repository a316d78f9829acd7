/** What the plan's page and the extension say to each other, and a check of each message at the door: neither trusts the other's shapes. */
import type { PlanPage, PlanProgress } from '../../server/src/service/plan/answer';

/** What of an answer the page shows. */
export interface PlanShown {
  readonly part: string;
  readonly page: PlanPage;
  /** It can be written into the text as that is. */
  readonly whole: boolean;
  readonly refused?: string;
}

/** From the extension to the page. */
export type ToPlan =
  | { readonly type: 'plan'; readonly plan: PlanShown }
  | ({ readonly type: 'progress' } & PlanProgress)
  /** Nothing is under way any more. */
  | { readonly type: 'rests' }
  /** What is shown is not that of the text, or nothing can be: why. */
  | { readonly type: 'older'; readonly why: string }
  /** It was written into the text. */
  | { readonly type: 'written' }
  /** Another part is shown from now on. */
  | { readonly type: 'empty' };

/** From the page to the extension. */
export type FromPlan =
  | { readonly type: 'ready' | 'cancel' | 'again' | 'write' }
  /** Step through it, from this set-up on. */
  | { readonly type: 'step'; readonly setup: number };

const isObject = (v: unknown): v is Record<string, unknown> => typeof v === 'object' && v !== null;

/** The message, or undefined for anything else. */
export function fromPlan(message: unknown): FromPlan | undefined {
  if (!isObject(message)) return undefined;
  const { type, setup } = message;
  switch (type) {
    case 'ready':
    case 'cancel':
    case 'again':
    case 'write':
      return { type };
    case 'step':
      return Number.isSafeInteger(setup) && (setup as number) >= 0 ? { type, setup: setup as number } : undefined;
    default:
      return undefined;
  }
}

/** The message, or undefined for anything else. A plan is taken as the server made it: only its frame is looked at. */
export function toPlan(message: unknown): ToPlan | undefined {
  if (!isObject(message)) return undefined;
  switch (message.type) {
    case 'plan': {
      const { plan } = message;
      const page = isObject(plan) ? plan.page : undefined;
      const sound = isObject(page) && Array.isArray(page.setups) && Array.isArray(page.others);
      return sound ? (message as unknown as ToPlan) : undefined;
    }
    case 'progress': {
      const { done, of, what } = message;
      return typeof done === 'number' && typeof of === 'number' && typeof what === 'string'
        ? { type: 'progress', done, of, what }
        : undefined;
    }
    case 'older':
      return typeof message.why === 'string' ? { type: 'older', why: message.why } : undefined;
    case 'rests':
    case 'written':
    case 'empty':
      return { type: message.type };
    default:
      return undefined;
  }
}

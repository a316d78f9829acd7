/** What the job panel and the extension say to each other, and a check of each message at the door: neither trusts the other's shapes. */
import type { JobProgress, JobView } from '../../server/src/service/job/protocol';

/** From the extension to the panel. */
export type ToJob =
  | { readonly type: 'job'; readonly view: JobView }
  | ({ readonly type: 'progress' } & JobProgress)
  /** Nothing is under way any more. */
  | { readonly type: 'rests' }
  /** Somebody called it off. */
  | { readonly type: 'left'; readonly why: string }
  | { readonly type: 'older'; readonly why: string }
  /** Another job is shown from now on. */
  | { readonly type: 'empty' };

/** From the panel to the extension. */
export type FromJob =
  | { readonly type: 'ready' | 'cancel' | 'again' | 'print' }
  /** A part's sheet, or its text, is wanted. */
  | { readonly type: 'sheet' | 'open'; readonly uri: string };

const isObject = (v: unknown): v is Record<string, unknown> => typeof v === 'object' && v !== null;

/** The message, or undefined for anything else: a part's address leads to a part. */
export function fromJob(message: unknown): FromJob | undefined {
  if (!isObject(message)) return undefined;
  const { type, uri } = message;
  switch (type) {
    case 'ready':
    case 'cancel':
    case 'again':
    case 'print':
      return { type };
    case 'sheet':
    case 'open':
      return typeof uri === 'string' && /\.part\.ya?ml$/i.test(uri) ? { type, uri } : undefined;
    default:
      return undefined;
  }
}

/** The message, or undefined for anything else. A job is taken as the server made it: only its frame is looked at. */
export function toJob(message: unknown): ToJob | undefined {
  if (!isObject(message)) return undefined;
  switch (message.type) {
    case 'job': {
      const { view } = message;
      const sound = isObject(view) && Array.isArray(view.parts) && Array.isArray(view.bars) && isObject(view.day);
      return sound ? (message as unknown as ToJob) : undefined;
    }
    case 'progress': {
      const { done, of, what } = message;
      return typeof done === 'number' && typeof of === 'number' && typeof what === 'string'
        ? { type: 'progress', done, of, what }
        : undefined;
    }
    case 'left':
    case 'older':
      return typeof message.why === 'string' ? { type: message.type, why: message.why } : undefined;
    case 'rests':
    case 'empty':
      return { type: message.type };
    default:
      return undefined;
  }
}

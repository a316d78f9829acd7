/** What the panel and the extension say to each other, and a check of each message at the door: neither trusts the other's shapes. */

import type { Vec3 } from '../../server/src/geometry/types';
import type { Range } from '../../server/src/service/shapes';
import type { Measured, Moment, PartPicture } from '../../server/src/service/view/protocol';
import type { Eye } from './orbit';

/** From the extension to the panel. */
export type ToPanel =
  | { readonly type: 'picture'; readonly picture: PartPicture }
  /** There is no picture of the text as it is: what is shown is older. */
  | { readonly type: 'stale'; readonly why: string }
  /** The feature that the cursor stands in; absent outside features. */
  | { readonly type: 'cursor'; readonly feature?: string }
  | { readonly type: 'measured'; readonly measured: Measured | null };

/** From the panel to the extension. */
export type ToHost =
  | { readonly type: 'ready' }
  /** The text that this belongs to is wanted. */
  | { readonly type: 'reveal'; readonly range: Range }
  | { readonly type: 'moment'; readonly moment?: Moment; readonly planned?: boolean }
  | {
      readonly type: 'measure';
      readonly version: number;
      readonly a: number;
      readonly atA: Vec3;
      readonly b: number;
      readonly atB: Vec3;
    }
  /** For the log: from message to picture on the screen. */
  | { readonly type: 'drawn'; readonly version: number; readonly ms: number; readonly triangles: number };

const isObject = (v: unknown): v is Record<string, unknown> => typeof v === 'object' && v !== null;
const isNumber = (v: unknown): v is number => typeof v === 'number' && Number.isFinite(v);
const isPoint = (v: unknown): v is Vec3 => Array.isArray(v) && v.length === 3 && v.every(isNumber);
const isPosition = (v: unknown) => isObject(v) && isNumber(v.line) && isNumber(v.character);
const isRange = (v: unknown): v is Range => isObject(v) && isPosition(v.start) && isPosition(v.end);

/** The message, or undefined for anything else. */
export function fromPanel(message: unknown): ToHost | undefined {
  if (!isObject(message)) return undefined;
  switch (message.type) {
    case 'ready':
      return { type: 'ready' };
    case 'reveal':
      return isRange(message.range) ? { type: 'reveal', range: message.range } : undefined;
    case 'moment':
      return momentFrom(message);
    case 'measure': {
      const { version, a, atA, b, atB } = message;
      const sound = isNumber(version) && isNumber(a) && isNumber(b) && isPoint(atA) && isPoint(atB);
      return sound ? { type: 'measure', version, a, atA, b, atB } : undefined;
    }
    case 'drawn': {
      const { version, ms, triangles } = message;
      return isNumber(version) && isNumber(ms) && isNumber(triangles)
        ? { type: 'drawn', version, ms, triangles }
        : undefined;
    }
    default:
      return undefined;
  }
}

function momentFrom({ moment, planned }: Record<string, unknown>): ToHost | undefined {
  if (planned !== undefined && typeof planned !== 'boolean') return undefined;
  const of = planned === true ? { planned } : {};
  if (moment === undefined) return { type: 'moment', ...of };
  if (!isObject(moment)) return undefined;
  const { setup, when, pass } = moment;
  if (!isNumber(setup) || (when !== 'before' && when !== 'after')) return undefined;
  if (pass === undefined) return { type: 'moment', moment: { setup, when }, ...of };
  return isNumber(pass) ? { type: 'moment', moment: { setup, when, pass }, ...of } : undefined;
}

/** The message, or undefined for anything else. A picture is taken as the server made it: only its frame is looked at. */
export function fromHost(message: unknown): ToPanel | undefined {
  if (!isObject(message)) return undefined;
  switch (message.type) {
    case 'picture': {
      const p = message.picture;
      const sound =
        isObject(p) &&
        isNumber(p.version) &&
        isObject(p.mesh) &&
        Array.isArray(p.surfaces) &&
        Array.isArray(p.features);
      return sound ? (message as unknown as ToPanel) : undefined;
    }
    case 'stale':
      return typeof message.why === 'string' ? { type: 'stale', why: message.why } : undefined;
    case 'cursor':
      return typeof message.feature === 'string' ? { type: 'cursor', feature: message.feature } : { type: 'cursor' };
    case 'measured': {
      const m = message.measured;
      if (m === null) return { type: 'measured', measured: null };
      return isObject(m) && typeof m.text === 'string' ? (message as unknown as ToPanel) : undefined;
    }
    default:
      return undefined;
  }
}

/** Where one looked, from what the editor kept; undefined for anything else, or of another part. */
export function eyeFrom(state: unknown, uri: string): Eye | undefined {
  if (!isObject(state) || state.uri !== uri || !isObject(state.eye)) return undefined;
  const { aroundDeg, aboveDeg, reachMm, at } = state.eye;
  const sound = isNumber(aroundDeg) && isNumber(aboveDeg) && isNumber(reachMm) && reachMm > 0 && isPoint(at);
  return sound ? { aroundDeg, aboveDeg, reachMm, at } : undefined;
}

/** The document that the panel showed, from what the editor kept. */
export function uriFrom(state: unknown): string | undefined {
  return isObject(state) && typeof state.uri === 'string' ? state.uri : undefined;
}

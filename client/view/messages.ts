/** What the panel and the extension say to each other, and a check of each message at the door: neither trusts the other's shapes. */

import type { Vec3 } from '../../server/src/geometry/types';
import type { Range } from '../../server/src/service/shapes';
import type {
  ComparedPicture,
  Measured,
  MeasureTouch,
  Moment,
  PartPicture,
  PictureSizes,
  Side,
  ToldPicture,
} from '../../server/src/service/view/protocol';
import type { Eye } from './orbit';

/** From the extension to the panel. */
export type ToPanel =
  | { readonly type: 'picture'; readonly picture: PartPicture }
  /** The next picture, told by the one before. */
  | { readonly type: 'told'; readonly told: ToldPicture }
  /** `isOfJob`: from the comparison of its job, to which it leads back. */
  | { readonly type: 'compared'; readonly compared: ComparedPicture; readonly isOfJob?: boolean }
  /** There is no picture of the text as it is: what is shown is older. */
  | { readonly type: 'stale'; readonly why: string }
  /** The feature that the cursor stands in; absent outside features. */
  | { readonly type: 'cursor'; readonly feature?: string }
  | { readonly type: 'measured'; readonly measured: Measured | null }
  /** Of the feature that was asked for; null: there is no such feature. */
  | { readonly type: 'sizes'; readonly sizes: PictureSizes | null }
  /** What was typed over a size was not written, and why. */
  | { readonly type: 'refused'; readonly why: string }
  /** For a machine that draws no pictures: the drawing, as SVG. */
  | { readonly type: 'drawing'; readonly svg: string };

/** From the panel to the extension. */
export type ToHost =
  | { readonly type: 'ready' }
  /** The text that this belongs to is wanted; of two, that of one side. */
  | { readonly type: 'reveal'; readonly range: Range; readonly side?: Side }
  /** A part of a job that is compared, by its change; and back to the job. */
  | { readonly type: 'open'; readonly change: number }
  | { readonly type: 'back' }
  | { readonly type: 'moment'; readonly moment?: Moment; readonly planned?: boolean }
  | ({ readonly type: 'measure'; readonly version: number } & MeasureTouch)
  /** The sizes of the feature that is chosen are wanted. */
  | { readonly type: 'sizes'; readonly feature: string }
  /** Typed over one of its sizes, as they were in that version of the text. */
  | {
      readonly type: 'typed';
      readonly feature: string;
      readonly size: number;
      readonly text: string;
      readonly version: number;
    }
  /** Pictures cannot be drawn here: the drawing is wanted in their place. */
  | { readonly type: 'drawing' }
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
    case 'back':
      return { type: message.type };
    case 'open':
      return isNumber(message.change) ? { type: 'open', change: message.change } : undefined;
    case 'reveal':
      return revealOf(message);
    case 'moment':
      return momentFrom(message);
    case 'measure': {
      const { version, a, b, atA, atB, edgeA, edgeB } = message;
      const edges = [edgeA, edgeB].every((e) => e === undefined || isNumber(e));
      const sound = edges && isNumber(version) && isNumber(a) && isNumber(b) && isPoint(atA) && isPoint(atB);
      const touched = { ...(isNumber(edgeA) && { edgeA }), ...(isNumber(edgeB) && { edgeB }) };
      return sound ? { type: 'measure', version, a, atA, b, atB, ...touched } : undefined;
    }
    case 'sizes':
      return typeof message.feature === 'string' ? { type: 'sizes', feature: message.feature } : undefined;
    case 'typed': {
      const { feature, size, text, version } = message;
      const sound = typeof feature === 'string' && typeof text === 'string' && isNumber(size) && isNumber(version);
      return sound ? { type: 'typed', feature, size, text, version } : undefined;
    }
    case 'drawing':
      return { type: 'drawing' };
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

function revealOf({ range, side }: Record<string, unknown>): ToHost | undefined {
  if (!isRange(range)) return undefined;
  return side === 'before' || side === 'after' ? { type: 'reveal', range, side } : { type: 'reveal', range };
}

function isPicture(p: unknown): boolean {
  return (
    isObject(p) && isNumber(p.version) && isObject(p.mesh) && Array.isArray(p.surfaces) && Array.isArray(p.features)
  );
}

function isTold(t: unknown): boolean {
  if (!isObject(t) || typeof t.id !== 'string' || !isNumber(t.version)) return false;
  return isObject(t.lists) && Array.isArray(t.pieces) && Array.isArray(t.names);
}

function areSizes(s: unknown): boolean {
  return s === null || (isObject(s) && Array.isArray(s.sizes));
}

function isCompared(c: unknown): boolean {
  return isObject(c) && isObject(c.titles) && Array.isArray(c.changes);
}

/** The message, or undefined for anything else. A picture is taken as the server made it: only its frame is looked at. */
export function fromHost(message: unknown): ToPanel | undefined {
  if (!isObject(message)) return undefined;
  switch (message.type) {
    case 'picture':
      return isPicture(message.picture) ? (message as unknown as ToPanel) : undefined;
    case 'told':
      return isTold(message.told) ? (message as unknown as ToPanel) : undefined;
    case 'compared':
      return isCompared(message.compared) ? (message as unknown as ToPanel) : undefined;
    case 'stale':
      return typeof message.why === 'string' ? { type: 'stale', why: message.why } : undefined;
    case 'cursor':
      return typeof message.feature === 'string' ? { type: 'cursor', feature: message.feature } : { type: 'cursor' };
    case 'measured': {
      const m = message.measured;
      if (m === null) return { type: 'measured', measured: null };
      return isObject(m) && typeof m.text === 'string' ? (message as unknown as ToPanel) : undefined;
    }
    case 'sizes':
      return areSizes(message.sizes) ? (message as unknown as ToPanel) : undefined;
    case 'refused':
      return typeof message.why === 'string' ? { type: 'refused', why: message.why } : undefined;
    case 'drawing':
      return typeof message.svg === 'string' ? { type: 'drawing', svg: message.svg } : undefined;
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

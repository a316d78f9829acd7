/** Requests of our own, as they came over the wire: anything may stand in them. Either what was meant, or a sentence. */
import type { Vec3 } from '../geometry/types';
import { FACES, type Face } from '../model/faces';
import { LANGUAGES } from '../sheet/language/names';
import { PAPERS } from '../sheet/page';
import type { CompareParams, CompareSide, RevisionsParams } from './compare-protocol';
import type { ExportParams } from './export-protocol';
import type { ImportParams } from './import-protocol';
import type { JobParams } from './job/protocol';
import type { PlanParams } from './plan/answer';
import type { SheetParams } from './sheet-protocol';
import { type StarterParams, TEMPLATES, type Template } from './starter/protocol';
import type { MeasureRequest, Moment, PictureRequest, SizesRequest, TypedRequest } from './view/protocol';

/** The request makes no sense; the message says why. */
export class BadRequest extends Error {}

/** Nothing is wrong with the request, but it cannot be answered; the message says why, to the user. */
export class Unanswered extends Error {}

type Fields = Readonly<Record<string, unknown>>;

function fieldsOf(params: unknown): Fields {
  if (typeof params !== 'object' || params === null || Array.isArray(params))
    throw new BadRequest('The request comes without its parameters: at least the `uri` of a document.');
  return params as Fields;
}

export function uriOf(params: unknown): string {
  const { uri } = fieldsOf(params);
  if (typeof uri !== 'string') throw new BadRequest('The request names no document: its `uri` must be a string.');
  return uri;
}

export function pictureRequest(params: unknown): PictureRequest {
  const { chordMm, held } = fieldsOf(params);
  const chord = isLeftOut(chordMm) ? {} : { chordMm: finite(chordMm, 'chordMm') };
  return {
    uri: uriOf(params),
    ...momentOf(params),
    ...chord,
    ...(isLeftOut(held) ? {} : { held: string(held, 'held') }),
  };
}

export function measureRequest(params: unknown): MeasureRequest {
  const { version, a, b, atA, atB, edgeA, edgeB } = fieldsOf(params);
  return {
    ...(isLeftOut(edgeA) ? {} : { edgeA: finite(edgeA, 'edgeA') }),
    ...(isLeftOut(edgeB) ? {} : { edgeB: finite(edgeB, 'edgeB') }),
    uri: uriOf(params),
    ...momentOf(params),
    version: finite(version, 'version'),
    a: finite(a, 'a'),
    atA: point(atA, 'atA'),
    b: finite(b, 'b'),
    atB: point(atB, 'atB'),
  };
}

export function sizesRequest(params: unknown): SizesRequest {
  const { feature } = fieldsOf(params);
  return { uri: uriOf(params), feature: string(feature, 'feature') };
}

export function typedRequest(params: unknown): TypedRequest {
  const { feature, size, text, version } = fieldsOf(params);
  return {
    uri: uriOf(params),
    feature: string(feature, 'feature'),
    size: finite(size, 'size'),
    text: string(text, 'text'),
    version: finite(version, 'version'),
  };
}

export function exportParams(params: unknown): ExportParams {
  const { name, face, drawing } = fieldsOf(params);
  if (typeof name !== 'string') throw new BadRequest('`name` must be a file’s name: its ending is the format.');
  if (!isLeftOut(face) && !FACES.includes(face as Face))
    throw new BadRequest(`\`face\` must be one of ${FACES.join(', ')}.`);
  if (!isLeftOut(drawing) && typeof drawing !== 'boolean') throw new BadRequest('`drawing` must be true or false.');
  return {
    uri: uriOf(params),
    name,
    ...(isLeftOut(face) ? {} : { face: face as Face }),
    ...(drawing === true && { drawing }),
  };
}

export function sheetParams(params: unknown): SheetParams {
  const { as, paper, language } = fieldsOf(params);
  if (as !== 'svg' && as !== 'pdf') throw new BadRequest('`as` must be `svg` or `pdf`.');
  return {
    uri: uriOf(params),
    as,
    paper: oneOf(paper, 'paper', PAPERS),
    language: oneOf(language, 'language', LANGUAGES),
  };
}

export function starterParams(params: unknown): StarterParams {
  const { name, template, piece } = fieldsOf(params);
  if (typeof template !== 'string' || !Object.hasOwn(TEMPLATES, template))
    throw new BadRequest(`\`template\` must be one of ${Object.keys(TEMPLATES).join(', ')}.`);
  return {
    uri: uriOf(params),
    name: string(name, 'name'),
    template: template as Template,
    ...(isLeftOut(piece) ? {} : { piece: finite(piece, 'piece') }),
  };
}

export function importParams(params: unknown): ImportParams {
  return { uri: uriOf(params), text: string(fieldsOf(params).text, 'text') };
}

export function planParams(params: unknown): PlanParams {
  return { uri: uriOf(params), ...tokenOf(params) };
}

function tokenOf(params: unknown): { workDoneToken?: string | number } {
  const { workDoneToken } = fieldsOf(params);
  return typeof workDoneToken === 'string' || typeof workDoneToken === 'number' ? { workDoneToken } : {};
}

export function jobParams(params: unknown): JobParams {
  const { as, paper, language } = fieldsOf(params);
  if (as !== 'view' && as !== 'pdf') throw new BadRequest('`as` must be `view` or `pdf`.');
  return {
    uri: uriOf(params),
    as,
    paper: oneOf(paper, 'paper', PAPERS),
    language: oneOf(language, 'language', LANGUAGES),
    ...tokenOf(params),
  };
}

export function compareParams(params: unknown): CompareParams {
  const { before, after, trusted } = fieldsOf(params);
  return { before: sideOf(before, 'before'), after: sideOf(after, 'after'), trusted: trusted === true };
}

function sideOf(side: unknown, name: string): CompareSide {
  const { revision, title } = fieldsOf(side);
  if (!isLeftOut(revision) && typeof revision !== 'string')
    throw new BadRequest(`\`revision\` of \`${name}\` must be a text.`);
  const uri = uriOf(side);
  return { uri, title: typeof title === 'string' ? title : name, ...(isLeftOut(revision) ? {} : { revision }) };
}

export function revisionsParams(params: unknown): RevisionsParams {
  return { uri: uriOf(params), trusted: fieldsOf(params).trusted === true };
}

/** The first where nothing is said. */
function oneOf<T extends string>(value: unknown, name: string, all: readonly [T, ...T[]]): T {
  const found = isLeftOut(value) ? all[0] : all.find((a) => a === value);
  if (found === undefined) throw new BadRequest(`\`${name}\` must be one of ${all.join(', ')}.`);
  return found;
}

function momentOf(params: unknown): Pick<PictureRequest, 'moment' | 'planned'> {
  const { moment, planned } = fieldsOf(params);
  if (!isLeftOut(planned) && typeof planned !== 'boolean') throw new BadRequest('`planned` must be true or false.');
  const of = planned === true ? { planned } : {};
  if (isLeftOut(moment)) return of;
  const { setup, when, pass } = moment as Partial<Moment>;
  if (!Number.isSafeInteger(setup) || (when !== 'before' && when !== 'after'))
    throw new BadRequest('`moment` must be { setup, when }: a set-up’s number from 0, and `before` or `after`.');
  if (isLeftOut(pass)) return { ...of, moment: { setup: setup!, when } };
  if (!Number.isSafeInteger(pass) || when !== 'after' || pass < 1)
    throw new BadRequest('`pass` must be the number of a pass from 1, with `when: after`.');
  return { ...of, moment: { setup: setup!, when, pass } };
}

/** Many clients write null for what is left out. */
function isLeftOut(value: unknown): value is undefined | null {
  return value === undefined || value === null;
}

function string(value: unknown, name: string): string {
  if (typeof value !== 'string') throw new BadRequest(`\`${name}\` must be a string.`);
  return value;
}

function finite(value: unknown, name: string): number {
  if (typeof value !== 'number' || !Number.isFinite(value)) throw new BadRequest(`\`${name}\` must be a number.`);
  return value;
}

function point(value: unknown, name: string): Vec3 {
  const is = Array.isArray(value) && value.length === 3 && value.every((x) => Number.isFinite(x));
  if (!is) throw new BadRequest(`\`${name}\` must be a point: three numbers, in mm.`);
  return value as unknown as Vec3;
}

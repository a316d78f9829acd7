/** How a workpiece is held and where zero is, as it is said beside a machine: `vise`, `top left corner`, `front`. */
import { at, type MapNode, type TextNode } from '../../text/tree';
import { type Axis, FACE_AXIS, FACES, type Face, OPPOSITE } from '../faces';
import { EVERYDAY_FACES, plainWord } from './everyday-words';
import { wordsIn } from './reading';

/** `vise`, or the name of one; the grip is to be filled in, or planned. */
export function holdText(node: TextNode): string | undefined {
  if (node.type !== 'scalar' || !/^[\p{L}\d-]+$/u.test(node.source)) return undefined;
  const isWord = /^(?:vise|vice|in-vise|machine-vise|schraubstock|maschinenschraubstock)$/.test(plainWord(node.source));
  if (!isWord && !/vise|vice|schraubstock/i.test(node.source)) return undefined;
  return `{ vise: ${isWord ? 'mill-vise-100' : node.source}, jaws: [front, back], grip: 6 }`;
}

/** The face that a word means, in any of the languages that are read. */
export function faceOf(word: string): Face | undefined {
  const plain = plainWord(word);
  return FACES.find((f) => f === plain) ?? EVERYDAY_FACES[plain];
}

const SIDES_OF: Readonly<Record<string, string>> = {
  x: '[left, right]',
  y: '[front, back]',
  z: '[bottom, top]',
  sides: '[left, right]',
  ends: '[left, right]',
};

/** `front/back`, `front`, `y`: two faces that are opposite each other. */
export function jawsText(node: TextNode): string | undefined {
  if (node.type !== 'scalar') return undefined;
  const faces = (wordsIn(node) ?? []).map(faceOf);
  if (faces.length === 2 && faces.every((f) => f !== undefined)) return `[${faces.join(', ')}]`;
  const [one] = faces;
  return one && faces.length === 1 ? `[${one}, ${OPPOSITE[one]}]` : SIDES_OF[plainWord(node.source)];
}

const CORNER = /^(?:corner|edge|ecke|kante|edges|of|the|face|side|and|und)$/;

/**
 * Where zero is, of words side by side. An axis that nothing was said of is set from either of its faces; up and down are
 * set from what is up, so that `top left` is the upper left corner of the drawing as well.
 */
export function zeroTexts(node: TextNode, beside: MapNode | undefined): readonly string[] {
  // Neither the middle nor a control's own offset says what is touched: the corner at the fixed jaw is, on either side.
  if (node.type === 'scalar' && NO_CORNER.test(node.source.trim())) {
    const up = upOf(beside);
    const upAxis = FACE_AXIS[up].axis;
    const [first, second] = AXES.filter((axis) => axis !== upAxis).map((axis) =>
      FACES.filter((f) => FACE_AXIS[f].axis === axis),
    );
    return second!.map((far) => zeroOf(new Map([first![0]!, far, up].map((f) => [FACE_AXIS[f].axis, f]))));
  }
  const words = wordsIn(node)
    ?.flatMap((w) => w.toLowerCase().split('-'))
    .filter((w) => !CORNER.test(plainWord(w)));
  const faces = words?.map(faceOf);
  if (!faces?.every((f): f is Face => f !== undefined) || faces.length === 0) return [];
  const by = new Map(faces.map((face): [Axis, string] => [FACE_AXIS[face].axis, face]));
  if (by.size !== faces.length) return [];
  const up = upOf(beside);
  if (!by.has(FACE_AXIS[up].axis)) by.set(FACE_AXIS[up].axis, up);
  const [open, more] = AXES.filter((axis) => !by.has(axis));
  if (more) return [];
  const either = open ? FACES.filter((f) => FACE_AXIS[f].axis === open) : [''];
  return either.map((face) => zeroOf(by, face));
}
const zeroOf = (by: ReadonlyMap<Axis, string>, open = '') =>
  `{ ${AXES.map((axis) => `${axis}: ${by.get(axis) ?? open}`).join(', ')} }`;
const NO_CORNER = /^(?:cent(?:er|re)d?|middle|mid|mitte|milieu|centro|G5[4-9](?:\.1)?(?:\s*P\d+)?)$/i;
const AXES = ['x', 'y', 'z'] as const;

function upOf(map: MapNode | undefined): Face {
  const node = at(map, 'up');
  return (node?.type === 'scalar' && faceOf(node.source)) || 'top';
}

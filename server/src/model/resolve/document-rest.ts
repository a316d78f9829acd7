/** What stands on the features: datums, tolerances, setups, accepted findings. */
import {
  at,
  entry,
  type MapNode,
  type ScalarNode,
  type Span,
  samePlace,
  scalarAt,
  type TextNode,
} from '../../text/tree';
import type { Accept, Axis, GeometricTolerance, Named, Part } from '../model';
import { accept as acceptSchema } from '../schema/part';
import { type Shape, shapeOf } from '../schema/shape';
import { CHARACTERISTIC_WORDS, tolerance as toleranceSchema } from '../schema/tolerance';
import { cutNamed } from './cut-named';
import type { CellDatabase } from './database';
import { type Evaluation, itemsOf, namedOf, textOf } from './evaluation';
import { quote } from './problem';
import { setupOf } from './setup';
import { modifiersOf } from './tolerance-modifiers';
import { faultsOf } from './validate';
import { variantsOf } from './variants';

type Rest = Pick<Part, 'datums' | 'tolerances' | 'setups' | 'accept' | 'variants'>;

const TOLERANCE = shapeOf(toleranceSchema);
const ACCEPT = shapeOf(acceptSchema);

export function restOf(doc: CellDatabase, root: MapNode | undefined): Rest {
  const datums = doc.cell('datums', [entry(root, 'datums')], (work) => datumsOf(work, root)) as Part['datums'];
  const letters = [...datums.keys()].join();
  const each = <T>(key: string, read: (work: Evaluation, node: TextNode) => T | undefined): readonly T[] => {
    const found: T[] = [];
    const list = at(root, key);
    for (const [i, item] of (list?.type === 'list' ? list.items : []).entries()) {
      const one = doc.cell(`${key}/${i}`, [item, letters], (work) => read(work, item));
      if (one && one !== 'circle') found.push(one);
    }
    return found;
  };
  const setups = entry(root, 'setups');
  const list = at(root, 'setups');
  return {
    datums,
    tolerances: each('tolerances', (work, node) => toleranceOf(work, node, datums)),
    ...(setups && { setups: list?.type === 'map' ? setupsOf(doc, list) : [] }),
    accept: each('accept', acceptOf),
    variants: variantsOf(doc, root),
  };

  function setupsOf(doc: CellDatabase, list: MapNode): NonNullable<Part['setups']> {
    const seen = new Set<string>();
    return list.entries.flatMap((e) => {
      const name = String(e.key.value);
      if (seen.has(name)) return [];
      seen.add(name);
      const one = doc.cell(`setups/${name}`, [e], (work) => setupOf(work, e));
      return one && one !== 'circle' ? [one] : [];
    });
  }
}

/** What a node's schema finds wrong; true where nothing stands in the way. */
function fine(work: Evaluation, shape: Shape, node: TextNode, what: string, but?: Span): boolean {
  for (const f of faultsOf(shape, node, what)) {
    if (but && samePlace(f.span, but)) continue;
    const more = f.fixes ? { fixes: f.fixes } : {};
    if (f.breaks) work.fail(f.message, f.span, more);
    else work.remark(f.message, f.span, more);
  }
  return !work.broken;
}

function datumsOf(work: Evaluation, root: MapNode | undefined): Part['datums'] {
  const found = new Map<string, { letter: Named; target: Named }>();
  const map = at(root, 'datums');
  if (map?.type !== 'map') return found;
  for (const e of map.entries) {
    const letter = { name: String(e.key.value), span: e.key.span };
    if (!/^[A-Z]{1,2}$/.test(letter.name))
      work.remark(`${quote(letter.name)} is not a datum letter. Write a capital letter like \`A\`.`, letter.span);
    if (e.value?.type !== 'scalar' || e.value.value === null) {
      const targets = e.value?.type === 'map' && at(e.value, 'targets');
      work.remark(
        targets
          ? `Datum targets are not understood: datum ${letter.name} is all of its face. Write it like \`${letter.name}: bottom\`, and the targets in \`notes\`.`
          : `Datum ${letter.name} needs a face or a feature. Write it like \`${letter.name}: bottom\`.`,
        e.value?.span ?? letter.span,
      );
      // With targets it is still a datum, of the face that stands beside them.
      const face = targets ? (scalarAt(e.value, 'face') ?? scalarAt(e.value, 'on')) : undefined;
      if (targets && !found.has(letter.name))
        found.set(letter.name, { letter, target: (face && cutNamed(work, face)) ?? letter });
      continue;
    }
    const target = cutNamed(work, e.value);
    // An unknown target is told; the letter is known all the same.
    if (!found.has(letter.name)) found.set(letter.name, { letter, target: target ?? namedOf(e.value) });
  }
  return found;
}

function toleranceOf(work: Evaluation, node: TextNode, datums: Part['datums']): GeometricTolerance | undefined {
  if (!fine(work, TOLERANCE, node, 'A tolerance')) return undefined;
  const characteristic = CHARACTERISTIC_WORDS.find((word) => at(node, word))!;
  const atMaximum = at(node, 'material-condition') !== undefined;
  const value = work.length(node, characteristic, atMaximum ? 'from-zero' : 'size');
  const ofNodes = itemsOf(at(node, 'of')) as readonly ScalarNode[];
  const of = ofNodes.map((n) => cutNamed(work, n));
  const letters = itemsOf(at(node, 'datums')) as readonly ScalarNode[];
  for (const letter of letters) {
    if (!datums.has(String(letter.value)))
      work.unknown('datum', String(letter.value), letter.span, datums.keys(), ' Add it under `datums`.');
  }
  if (characteristic === 'distance') {
    if (of.length !== 2)
      work.fail('A distance is between two things. Write them like `of: [a, b]`.', at(node, 'of')!.span);
    if (value && !value.tolerance)
      work.fail('A distance here needs its tolerance. Write it like `36 ±0.02`.', value.span);
  }
  const modifiers = modifiersOf(work, node, characteristic, of);
  const note = scalarAt(node, 'note');
  if (!value || work.broken) return undefined;
  const axis = scalarAt(node, 'axis')?.value as Axis | undefined;
  return {
    characteristic,
    value,
    of: of as Named[],
    datums: letters.map(namedOf),
    ...(axis && { axis }),
    maximumMaterial: atMaximum,
    ...modifiers,
    ...(note && { note: textOf(note) }),
    span: node.span,
  };
}

function acceptOf(work: Evaluation, node: TextNode): Accept | undefined {
  const reason = node.type === 'map' ? node.entries.find((e) => e.key.value === 'because') : undefined;
  // A reason that is still to be typed is asked for by a rule; the entry holds.
  const untyped = reason && !(reason.value?.type === 'scalar' ? reason.value.value !== null : reason.value);
  if (!fine(work, ACCEPT, node, 'An accepted finding', untyped ? reason.key.span : undefined)) return undefined;
  const rule = scalarAt(node, 'rule')!;
  const ofNode = scalarAt(node, 'of');
  const of = ofNode && cutNamed(work, ofNode);
  const because = untyped ? undefined : scalarAt(node, 'because');
  if (work.broken) return undefined;
  return {
    rule: namedOf(rule),
    ...(of && { of }),
    ...(because && { because: textOf(because) }),
    span: node.span,
  };
}

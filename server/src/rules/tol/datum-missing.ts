/** tol/datum-missing – a geometric tolerance that is relative to something, and does not say to what. */
import type { GeometricTolerance, Part } from '../../model/model';
import { at, samePlace } from '../../text/tree';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { addEntry } from '../kit/edits';
import type { Rule } from '../kit/rule';

/** ISO 1101: orientation, location of axes and centre planes, and run-out are relative to a datum; form is not. */
const RELATIVE: ReadonlySet<string> = new Set([
  'parallelism',
  'perpendicularity',
  'angularity',
  'concentricity',
  'symmetry',
  'runout',
  'total-runout',
]);

/** A pattern's places may be held among themselves; those of a lone feature are relative to something. */
function isRelative({ characteristic, of }: GeometricTolerance, part: Part): boolean {
  if (RELATIVE.has(characteristic)) return true;
  const only = of.length === 1 ? part.featureByName.get(of[0]!.name) : undefined;
  return characteristic === 'position' && only !== undefined && only.places.length === 1;
}

/** Datums that are not the toleranced feature itself. */
function otherDatums({ of }: GeometricTolerance, part: Part): readonly { letter: string; target: string }[] {
  return [...part.datums.values()]
    .map((d) => ({ letter: d.letter.name, target: d.target.name }))
    .filter(({ target }) => of.every((o) => o.name !== target));
}

const BAD = `part: bracket
units: mm
material: aluminium-6061-t6
body: { x: 40, y: 40, z: 15 }
features:
  seat:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 22 H7
    depth: through
datums: { A: bottom }
tolerances:
  - { perpendicularity: 0.05, of: seat }
`;

export const datumMissing: Rule = defineRule({
  name: 'tol/datum-missing',
  severity: 'warning',
  summary: 'A geometric tolerance needs a datum, but names none.',
  why: 'Square, parallel or true to what? One person grips the part on some face; the one who measures it uses another, and both are right. The datum says which face goes on the parallels and on the granite.',
  formula:
    'ISO 1101: parallelism, perpendicularity, angularity, concentricity, symmetry and run-out need a datum. The position of a lone feature does too. Flatness and profile do not.',
  bounds: 'ISO 1101.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['of: seat }', 'of: seat, datums: [A] }']),
  when: 'text',
  mends: 'Name each datum of the part that is another face or feature.',
  *find({ part }) {
    for (const tolerance of part.tolerances) {
      if (tolerance.datums.length === 0 && isRelative(tolerance, part))
        yield { tolerance, known: otherDatums(tolerance, part) };
    }
  },
  tell({ tolerance: { characteristic, value, of, span }, known }, { part, length }) {
    const would =
      known.length > 0
        ? `Name one: ${known.map((d) => `${d.letter} (${d.target})`).join(', ')}.`
        : 'Give a face a letter under `datums`, and name it here.';
    return {
      message: `The ${characteristic} of ${length(value.mm)} names no datum. It needs one: relative to what? ${would}`,
      of: of.map((o) => o.name),
      span,
      related: of.map((o) => {
        const feature = part.featureByName.get(o.name);
        return feature && { span: feature.nameSpan, message: 'what it is about' };
      }),
      facts: { characteristic, zone_mm: value.mm },
    };
  },
  keep: ({ tolerance, known }) => ({ span: tolerance.span, known }),
  *mend({ span, known }, { tree }) {
    const list = at(tree.root, 'tolerances');
    const map = list?.type === 'list' ? list.items.find((i) => samePlace(i.span, span)) : undefined;
    if (map?.type !== 'map') return;
    for (const { letter, target } of known)
      yield change(`Name ${letter} (${target})`, addEntry(tree, map, 'datums', `[${letter}]`));
  },
});

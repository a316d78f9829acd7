/** A part's text with a set-up for every face that is cut from: how it lies in the vise, what against, what is set from. */
import { parse, stringify } from 'yaml';
import type { FaceName } from './turn';

const FACES: readonly FaceName[] = ['top', 'front', 'left', 'bottom', 'back', 'right'];
const PAIRS: readonly (readonly [FaceName, FaceName])[] = [
  ['left', 'right'],
  ['front', 'back'],
  ['bottom', 'top'],
];

interface Written {
  readonly features?: Readonly<Record<string, { readonly kind: string; readonly face?: FaceName }>>;
}

/** `pick` decides between the two ways to clamp, what stops, how high it is gripped and where zero is. */
export function withSetups(text: string, pick: number): string {
  const part = parse(text) as Written;
  const features = Object.entries(part.features ?? {});
  const first = features.find(([, f]) => f.face)?.[1].face ?? 'top';
  const faceOf = (f: { readonly face?: FaceName }) => f.face ?? first;
  const setups: Record<string, unknown> = {};
  for (const up of FACES) {
    const cuts = features.filter(([, f]) => faceOf(f) === up).map(([name]) => name);
    if (cuts.length === 0) continue;
    const sides = PAIRS.filter((p) => !p.includes(up));
    const jaws = sides[pick % 2]!;
    const along = sides[1 - (pick % 2)]!;
    const hole = features.find(([, f]) => f.kind === 'hole' && f.face === up)?.[0];
    const axisOf = (pair: readonly FaceName[]) => 'xyz'[PAIRS.findIndex((p) => p[0] === pair[0])]!;
    const height = axisOf(PAIRS.find((p) => p.includes(up))!);
    setups[`by-${up}`] = {
      up,
      hold: { vise: 'mill-vise-100', jaws, grip: 3 + (pick % 5), ...(pick % 3 ? { stop: along[pick % 2] } : {}) },
      zero: {
        [axisOf(jaws)]: jaws[0],
        [axisOf(along)]: pick % 4 === 1 && hole ? hole : along[(pick >> 1) % 2],
        [height]: pick % 3 === 2 ? 'parallels' : up,
      },
      cuts: pick % 7 === 0 ? cuts : [...cuts, up],
    };
  }
  return stringify({ ...part, setups }, { lineWidth: 0, aliasDuplicateObjects: false });
}

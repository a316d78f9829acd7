/** A picture told by one that was told before: what is in both goes over as a number. */
import { base64Of } from '../../geometry/mesh/base64';
import type { Shown } from '../../geometry/mesh/display';
import type { Arrays } from '../../geometry/mesh/joined';
import { namedTogether, together } from '../../geometry/mesh/together';
import { memo } from '../../memo';
import type { Mesh, PartPicture, PictureLists, ToldPicture } from './protocol';

/** A picture before it is told: its mesh in pieces, of which what did not change is the same object. */
export interface Pictured {
  readonly picture: Omit<PartPicture, 'mesh'>;
  readonly pieces: readonly Shown[];
}

/** With all of its mesh as one. */
export function wholly({ picture, pieces }: Pictured): PartPicture {
  return { ...picture, mesh: meshOf(together(pieces)) };
}

export function toldBy(id: string, next: Pictured, before?: Pictured & { readonly id: string }): ToldPicture {
  const { surfaces, features, findings, setups, ...rest } = next.picture;
  const were = before?.picture;
  const places = new Map(before?.pieces.map((p, i) => [p, i]));
  return {
    ...rest,
    id,
    ...(before && { by: before.id }),
    lists: {
      surfaces: listed(surfaces, were?.surfaces),
      features: listed(features, were?.features),
      findings: listed(findings, were?.findings),
      setups: listed(setups, were?.setups),
    } satisfies { [L in keyof PictureLists]: unknown },
    pieces: next.pieces.map((p) => places.get(p) ?? { mesh: meshOf(p) }),
    names: namedTogether(next.pieces).names,
  };
}

function listed<T extends object>(items: readonly T[], were: readonly T[] = []): readonly (T | number)[] {
  let places: Map<string, number> | undefined;
  return items.map((item, i) => {
    if (were[i] && (were[i] === item || textOf(were[i]) === textOf(item))) return i;
    places ??= new Map(were.map((w, k) => [textOf(w), k]));
    return places.get(textOf(item)) ?? item;
  });
}

const textOf = memo((item: object) => JSON.stringify(item));

const meshOf = memo(({ positions, normals, triangles, surfaceOf, edges, edgeOf }: Arrays): Mesh => {
  return {
    positions: base64Of(positions),
    normals: base64Of(normals),
    triangles: base64Of(triangles),
    surfaceOf: base64Of(surfaceOf),
    edges: base64Of(edges),
    edgeOf: base64Of(edgeOf),
  };
});

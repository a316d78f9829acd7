/** Names of the members of a pattern: `mount[2]` is the second of `mount`. */

interface MemberName {
  readonly feature: string;
  /** From 1; left out: all of the feature is meant. */
  readonly member?: number;
}

export function readMemberName(name: string): MemberName {
  const [, feature, member] = /^(.*?)(?:\[(\d+)\])?$/s.exec(name)!;
  return member === undefined ? { feature: feature! } : { feature: feature!, member: Number(member) };
}

/** `mount[2]` → `mount`. */
export function featureNameOf(name: string): string {
  return readMemberName(name).feature;
}

/** `member` 0: a feature that is no pattern. */
export function memberName(feature: string, member: number): string {
  return member > 0 ? `${feature}[${member}]` : feature;
}

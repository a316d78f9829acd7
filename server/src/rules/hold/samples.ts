/** What the examples of these rules share: a block of aluminium, and how it is held. */
const HEAD = 'part: guide\nmaterial: aluminium-6061-t6\n';

interface Sample {
  readonly body: string;
  readonly features: string;
  readonly hold: string;
  readonly cuts: string;
  readonly up?: string;
  readonly more?: string;
  readonly zero?: string;
}

/** A part with one set-up. */
export function held({ body, features, hold, cuts, up = 'top', more = '', zero }: Sample): string {
  return `${HEAD}body: ${body}
${more}features:
${features}setups:
  first:
    up: ${up}
    hold: ${hold}
${zero ? `    zero: ${zero}\n` : ''}    cuts: ${cuts}
`;
}

export const SEAT =
  '  seat: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 24, y: 16 }, corner-radius: 6, depth: 5 }\n';

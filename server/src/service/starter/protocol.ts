/** What an editor and the server say to each other about parts to begin. */
/** What a part can start as. */
export const TEMPLATES = {
  'bearing-block': 'a bore with a fit, tapped holes beside it, broken edges',
  plate: 'holes for screws in the corners, a recess between them',
  blank: 'the outside alone, edges broken',
} as const;
export type Template = keyof typeof TEMPLATES;

/** Request: `{ uri }` of the file to be → `AtHandAnswer`: what the shop that would judge it has. */
export const AT_HAND = 'scribeline/atHand';
/** Request: `StarterParams` → `StarterAnswer`, or null where no such piece is at hand. */
export const STARTER = 'scribeline/starter';

export interface AtHandAnswer {
  /** The shop’s name. */
  readonly shop: string;
  readonly pieces: readonly { readonly label: string; readonly detail: string }[];
}

export interface StarterParams {
  /** Of the file to be. */
  readonly uri: string;
  readonly name: string;
  readonly template: Template;
  /** Its place among the pieces; left out: no bar is chosen. */
  readonly piece?: number;
}

export interface StarterAnswer {
  readonly newText: string;
  /** Features of the template that this shop cannot make of this piece. */
  readonly left: readonly string[];
  /** Whether it has set-ups. */
  readonly isPlanned: boolean;
}

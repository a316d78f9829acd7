/** Which of the numbers that nobody wrote stand beside the text; hovers tell them all. */
import { type InlayHint, workspace } from 'vscode';

/** What the server says that a hint tells. */
const WHAT = ['values', 'sizes', 'cutting'] as const;
type What = (typeof WHAT)[number];

/** Hints of kinds that are wanted; of a kind that this version does not know, all. */
export function wantedBeside(hints: readonly InlayHint[]): InlayHint[] {
  const settings = workspace.getConfiguration('scribeline.besideText');
  const hidden = new Set(WHAT.filter((what) => settings.get<string>(what) === 'hover'));
  return hints.filter((hint) => !hidden.has(whatOf(hint)));
}

function whatOf(hint: InlayHint & { readonly data?: unknown }): What {
  return hint.data as What;
}

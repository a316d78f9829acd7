/** Which of the numbers that nobody wrote stand beside the text; hovers tell them all. */
import { type InlayHint, workspace } from 'vscode';

/** Hints of kinds that are wanted; of a kind that this version does not know, all. */
export function wantedBeside(hints: readonly InlayHint[]): InlayHint[] {
  const settings = workspace.getConfiguration('scribeline');
  /** By what the server says that a hint tells. */
  const where: Readonly<Record<string, string | undefined>> = {
    values: settings.get<string>('besideText.values'),
    sizes: settings.get<string>('besideText.sizes'),
    cutting: settings.get<string>('besideText.cutting'),
  };
  return hints.filter((hint) => where[String(toldBy(hint))] !== 'hover');
}

function toldBy(hint: InlayHint & { readonly data?: unknown }): unknown {
  return hint.data;
}

/** Which of the numbers that nobody wrote stand beside the text, and which of the others on hover. */
import { type InlayHint, workspace } from 'vscode';

/** Hints of kinds that are wanted; of a kind that this version does not know, all. */
export function wantedBeside(hints: readonly InlayHint[]): InlayHint[] {
  const where = settingsNow();
  return hints.filter((hint) => !['hover', 'off'].includes(where[String(toldBy(hint))] ?? 'on'));
}

/** What is not wanted in hovers either. */
export function unwantedOnHover(): readonly string[] {
  return Object.entries(settingsNow()).flatMap(([what, where]) => (where === 'off' ? [what] : []));
}

/** By what the server says that a hint tells. */
function settingsNow(): Readonly<Record<string, string | undefined>> {
  const settings = workspace.getConfiguration('scribeline');
  return {
    values: settings.get<string>('besideText.values'),
    sizes: settings.get<string>('besideText.sizes'),
    cutting: settings.get<string>('besideText.cutting'),
  };
}

function toldBy(hint: InlayHint & { readonly data?: unknown }): unknown {
  return hint.data;
}

/** The documents this extension looks after, as the editor names them. */

export const LANGUAGES = ['scribeline-part', 'scribeline-shop', 'scribeline-job', 'scribeline-record'] as const;

/** Files, new unsaved ones, and files of whatever kind the open folders are. Not the old side of a comparison: nobody changes that. */
export function schemesWith(opened: readonly string[]): readonly string[] {
  return [...new Set(['file', 'untitled', 'vscode-vfs', ...opened])];
}

export function isOurs(languageId: string): boolean {
  return (LANGUAGES as readonly string[]).includes(languageId);
}

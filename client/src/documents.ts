/** The documents this extension looks after, as the editor names them. */

export const LANGUAGES = ['scribeline-part', 'scribeline-shop', 'scribeline-job', 'scribeline-record'] as const;

/** Files, new unsaved ones, and files of a virtual workspace. Not the old side of a comparison: nobody mends that. */
export const SCHEMES = ['file', 'untitled', 'vscode-vfs'] as const;

export function isOurs(languageId: string): boolean {
  return (LANGUAGES as readonly string[]).includes(languageId);
}

/** Which of a setting's values counts. A folder that nobody has vouched for must not choose the shop that judges. */

/** As the editor tells of a setting, level by level. */
interface SettingLevels {
  readonly globalValue?: string;
  readonly workspaceValue?: string;
  readonly workspaceFolderValue?: string;
}

/** The value of the narrowest level; in a folder that is not trusted only the user's own. */
export function obeyed(levels: SettingLevels | undefined, trusted: boolean): string {
  const folders = trusted ? (levels?.workspaceFolderValue ?? levels?.workspaceValue) : undefined;
  return (folders ?? levels?.globalValue ?? '').trim();
}

/**
 * What is read for the server in an editor in a browser. Where a link leads cannot be seen there, so none is followed; and
 * nothing is read from where neither a folder nor a text is open.
 */

/** As the editor's file types tell it. */
const SYMBOLIC_LINK = 64;

export interface Around {
  /** Something is open by the same scheme and authority. */
  readonly isKnown: boolean;
  /** The path of the open folder that it is in. */
  readonly folder?: string;
}

/** To follow the name, or undefined where it may be read. `stat` rejects where nothing is there. */
export async function whyClosed(
  path: string,
  { isKnown, folder }: Around,
  stat: (path: string) => PromiseLike<{ readonly type: number }>,
): Promise<string | undefined> {
  if (!isKnown) return 'lies where no folder is open: open its folder';
  const names = path.split('/');
  if (names.some((name) => name === '.' || name === '..')) return 'is not named by a plain path';
  // Of a file outside only itself: how its user's folders hang together is nobody's business.
  const from = folder === undefined ? names.length : folder.split('/').filter((name) => name !== '').length + 2;
  for (let end = Math.min(from, names.length); end <= names.length; end++) {
    const at = names.slice(0, end).join('/');
    const { type } = await stat(at);
    if (type & SYMBOLIC_LINK)
      return `${end < names.length ? `is reached through ${at}, which is` : 'is'} a link: in a browser it cannot be seen where it leads`;
  }
  return undefined;
}

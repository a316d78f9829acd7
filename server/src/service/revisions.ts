/** Which revisions a file has, and why there may be none to be had. */
import type { RevisionsAnswer, RevisionsParams } from './compare-protocol';
import type { Host } from './host';

export const UNTRUSTED = 'Git is not asked in a folder that is not trusted. Trust the folder first.';
export const NO_GIT = 'No revisions can be had here: the file is not on this machine’s disk.';

export async function revisionsAnswer(host: Host, { uri, trusted }: RevisionsParams): Promise<RevisionsAnswer> {
  if (!trusted) return { trouble: UNTRUSTED };
  const found = await host.revisions?.(uri);
  if (!found) return { trouble: NO_GIT };
  return 'why' in found ? { trouble: `${found.why[0]!.toUpperCase()}${found.why.slice(1)}.` } : { revisions: found };
}

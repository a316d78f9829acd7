/** The panel's page: fixed markup, its script and style by their own addresses, and nothing else may load. No text of a part is in it. */
import { framedPage } from '../beside/page';

interface PageSources {
  readonly title: string;
  /** What the view's script works on: `client/view/body.ts`. */
  readonly body: string;
  readonly script: string;
  readonly style: string;
  /** Where the editor serves local files from, for the policy. */
  readonly cspSource: string;
  readonly nonce: string;
}

export function pageOf({ title, body, script, style, cspSource, nonce }: PageSources): string {
  return framedPage({
    title,
    // The editor puts its theme's colours on the page's root as style properties.
    may: [`style-src ${cspSource}`],
    nonce,
    style: `<link rel="stylesheet" href="${style}">`,
    body,
    script,
  });
}

/** The job panel's page: fixed markup, its script and style by their own addresses, and nothing else may load. */
import { framedPage } from '../beside/page';

interface PageSources {
  readonly script: string;
  readonly style: string;
  /** Where the editor serves local files from, for the policy. */
  readonly cspSource: string;
  readonly nonce: string;
}

export function pageOf({ script, style, cspSource, nonce }: PageSources): string {
  return framedPage({
    title: 'Job',
    may: [`style-src ${cspSource}`],
    nonce,
    style: `<link rel="stylesheet" href="${style}">`,
    body: `\
<header>
  <div id="under-way" hidden>
    <progress id="progress" max="1" value="0" aria-label="Worked out so far"></progress>
    <span id="what" aria-live="polite"></span>
    <button type="button" id="cancel">Cancel</button>
  </div>
  <button type="button" id="print">Print all sheets</button>
  <button type="button" id="again" hidden>Work it out</button>
  <p id="status" role="status"></p>
</header>
<main></main>`,
    script,
  });
}

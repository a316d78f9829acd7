/** The panel's page: fixed markup, its script and style by their own addresses, and nothing else may load. No text of a part is in it. */

import { framedPage } from '../beside/page';

interface PageSources {
  readonly script: string;
  readonly style: string;
  /** Where the editor serves local files from, for the policy. */
  readonly cspSource: string;
  readonly nonce: string;
}

/** What the keys and the mouse do. */
const KEYS = `\
      <dt>drag, arrow keys</dt><dd>turn</dd>
      <dt>Shift and drag, Shift and arrow keys</dt><dd>move</dd>
      <dt>wheel, + and −</dt><dd>nearer and away</dd>
      <dt>Home</dt><dd>all of it</dd>
      <dt>press a face</dt><dd>its feature in the text</dd>
      <dt>Tab, then up and down</dt><dd>findings and features</dd>
      <dt>Enter</dt><dd>to the text of the one chosen</dd>
      <dt>Escape</dt><dd>stop measuring</dd>`;

export function pageOf({ script, style, cspSource, nonce }: PageSources): string {
  return framedPage({
    title: 'Part view',
    // The editor puts its theme's colours on the page's root as style properties.
    may: [`style-src ${cspSource}`],
    nonce,
    style: `<link rel="stylesheet" href="${style}">`,
    body: BODY,
    script,
  });
}

const BODY = `\
<header>
  <div class="group" id="faces" role="group" aria-label="Look at"></div>
  <div class="group" id="steps" role="group" aria-label="Set-ups">
    <span class="group" id="set-ups" hidden>
      <button type="button" id="before" title="The moment before ([)" aria-label="The moment before">‹</button>
      <select id="setup" title="Which set-up" aria-label="Which set-up"><option value="-1">finished part</option></select>
      <button type="button" id="next" title="The moment after (])" aria-label="The moment after">›</button>
    </span>
    <label title="Step through the set-ups of the plan, written or not"><input type="checkbox" id="planned">as planned</label>
  </div>
  <div class="group">
    <label><input type="checkbox" id="stock">stock</label>
  </div>
  <div class="group">
    <label for="cut-axis">cut open</label>
    <select id="cut-axis" title="Square to which axis of the part"><option value="">no</option><option>x</option><option>y</option><option>z</option></select>
    <input type="range" id="cut-at" min="1" max="999" value="500" hidden aria-label="Where it is cut open">
  </div>
  <div class="group">
    <button type="button" id="measure" aria-pressed="false" title="Press two faces">measure</button>
  </div>
</header>
<main>
  <div id="step" aria-live="polite"></div>
  <canvas id="picture" tabindex="0" role="img" aria-label="The part"></canvas>
  <svg id="lines" aria-hidden="true"></svg>
  <div id="labels" aria-hidden="true"></div>
</main>
<aside>
  <div id="list" role="listbox" tabindex="0" aria-label="Findings and features"></div>
</aside>
<footer>
  <span id="status" role="status"></span>
  <details>
    <summary>keys</summary>
    <dl>
${KEYS}
    </dl>
  </details>
</footer>
<div id="said" class="aloud" aria-live="polite"></div>`;

/** From a finding to the page of its rule: by the link behind the rule's name, and by the command. */
import { strict as assert } from 'node:assert';
import { commands, type TabInputWebview, window } from 'vscode';
import { findings, ofPages, ofRule, putAway, show, within } from './editor';
import { click, present, screenshot, sees } from './person';

const RULE = 'corner/inside-radius';

/** Waits for a tab that shows the page as a preview, not as text. */
async function previewOpens(): Promise<void> {
  const end = Date.now() + 10_000;
  const shown = () =>
    window.tabGroups.all
      .flatMap((group) => group.tabs)
      .find((tab) => /inside-radius/.test(tab.label) && (tab.input as TabInputWebview)?.viewType?.includes('preview'));
  while (!shown()) {
    const tabs = window.tabGroups.all.flatMap((group) => group.tabs).map((tab) => tab.label);
    assert.ok(Date.now() < end, `no preview of the rule's page; open: ${tabs.join(', ')}`);
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}

describe("a rule's page", () => {
  afterEach(putAway);

  const atTheFinding = async () => {
    const { document } = await show('camera-tray.part.yaml', (d) => within(d, 'corner-radius: 1.5'));
    await findings(document, (d) => ofRule(d, RULE).length > 0, `no ${RULE}`);
  };

  it('opens from the finding at the cursor', async () => {
    await atTheFinding();
    await commands.executeCommand('scribeline.explainRule');
    await previewOpens();
    if (present) await sees('h1', /inside-radius/, true);
    await screenshot('rule-page');
  });

  ofPages('opens by name', async () => {
    await commands.executeCommand('scribeline.explainRule', RULE);
    await previewOpens();
  });

  ofPages("opens from the link behind the rule's name", async function () {
    if (!present) this.skip();
    await atTheFinding();
    await commands.executeCommand('editor.action.showHover');
    await click('.monaco-hover a.code-link');
    await previewOpens();
    await sees('h1', /inside-radius/, true);
  });
});

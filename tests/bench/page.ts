/** The page's side of the view: from what it is told to a drawn frame, in a browser that draws by itself, without a graphics card. */
import { pageOf } from '../../client/src/part-view/page';
import { PART_BODY } from '../../client/view/body';
import { findBrowser } from '../editor/host';
import { PartHost } from '../pages/host';
import { launch, openPage, tell } from '../pages/page';
import { plate } from './parts';

interface PageTimes {
  /** As the page tells them: it took what it was told, and drew. */
  readonly drawn: readonly number[];
  /** Letters of each message. */
  readonly letters: readonly number[];
}

/** After each edit of one depth; undefined where this machine has no browser. */
export async function pageTimes(count: number, edits: number): Promise<PageTimes | undefined> {
  const executable = findBrowser();
  if (executable === undefined) return undefined;
  const browser = await launch(executable);
  try {
    const text = plate(count);
    const host = new PartHost(text);
    const page = await openPage({
      browser,
      theme: 'light',
      size: { width: 1040, height: 800 },
      html: (sources) => pageOf({ title: 'Part view', body: PART_BODY, ...sources }),
      bundle: 'view',
      answer: (message) => host.answer(message),
    });
    await page.waitForSelector('body[data-part]');
    const letters: number[] = [];
    const drawn: number[] = [];
    for (let i = 1; i <= edits; i++) {
      host.text(text.replace('depth: 5\n', `depth: ${(4 + (i % 9) * 0.25).toFixed(2)}\n`));
      const told = await host.picture();
      letters.push(JSON.stringify(told).length);
      await tell(page, told);
      await page.waitForSelector(`body[data-version="${i + 1}"]`);
      drawn.push(Number(await page.evaluate('document.body.dataset.drawnMs')));
    }
    return { drawn, letters };
  } finally {
    await browser.close();
  }
}

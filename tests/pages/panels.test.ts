/**
 * The panels beside the part view and the plan, told what the built server answers: a job, its sheets, two parts and two jobs
 * compared, in four themes and two widths.
 */
import assert from 'node:assert/strict';
import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser } from 'playwright-core';
import { pageOf as jobPage } from '../../client/src/job/page';
import { pageOf as framed } from '../../client/src/part-view/page';
import { pageOf as sheetPage } from '../../client/src/sheet/page';
import { COMPARE_BODY } from '../../client/view/body';
import { COMPARE, type CompareAnswer } from '../../server/src/service/compare-protocol';
import { JOB, type JobAnswer } from '../../server/src/service/job/protocol';
import { SHEET, type SheetAnswer } from '../../server/src/service/sheet-protocol';
import { getBrowser } from '../editor/host';
import { Client } from '../server/client';
import { judge, LOOKS, SHOTS, WIDTHS } from './judged';
import { launch, openPage, settled, wear } from './page';

const EXAMPLES = join(__dirname, '../../examples');
const uriOf = (side: 'before' | 'after', name: string) =>
  pathToFileURL(join(EXAMPLES, 'review', side, name)).toString();

const SHORT = `job: gimbal
mass-limit: 900 g
parts:
  bearing-block: { spec: bearing-block.part.yaml, quantity: 2 }
  motor-mount: { spec: motor-mount.part.yaml }
`;

type Sources = Parameters<Parameters<typeof openPage>[0]['html']>[0];

interface Panel {
  readonly bundle: string;
  readonly html: (sources: Sources) => string;
  /** What the extension tells the page. */
  readonly told: (client: Client) => Promise<object>;
  /** There once it is shown. */
  readonly shows: string;
}

const compared = (name: string): Panel => ({
  bundle: 'view',
  html: (sources) => framed({ title: 'Compared', body: COMPARE_BODY, ...sources }),
  told: async ({ connection }) => {
    const sides = { before: { uri: uriOf('before', name) }, after: { uri: uriOf('after', name) } };
    const answer = await connection.sendRequest<CompareAnswer>(COMPARE, sides);
    assert.ok('compared' in answer, JSON.stringify(answer));
    return { type: 'compared', compared: answer.compared };
  },
  shows: '#list .entry',
});

const PANELS: Readonly<Record<string, Panel>> = {
  job: {
    bundle: 'job',
    html: jobPage,
    told: async (client) => {
      const { connection } = client;
      // Parts with their set-ups in the text: nothing is planned first.
      const uri = uriOf('after', 'short.job.yaml');
      client.open(uri, SHORT);
      const answer = await connection.sendRequest<JobAnswer | null>(JOB, { uri, as: 'view' });
      assert.ok(answer && 'view' in answer, JSON.stringify(answer));
      return { type: 'job', view: answer.view };
    },
    shows: 'main h1',
  },
  sheet: {
    bundle: 'sheet',
    html: ({ style: _, ...rest }) =>
      sheetPage({ ...rest, plain: '/fonts/DejaVuSansCondensed.ttf', bold: '/fonts/DejaVuSansCondensed-Bold.ttf' }),
    told: async ({ connection }) => {
      const asked = { uri: uriOf('after', 'bearing-block.part.yaml'), as: 'svg', paper: 'a4', language: 'en' };
      const answer = await connection.sendRequest<SheetAnswer>(SHEET, asked);
      assert.ok('data' in answer, JSON.stringify(answer));
      return { type: 'pages', pages: answer.data, why: answer.notes.join(' ') };
    },
    shows: 'main svg',
  },
  'two-parts': compared('bearing-block.part.yaml'),
  'two-jobs': compared('gimbal.job.yaml'),
};

describe('the panels', function () {
  this.timeout(240_000);
  let browser: Browser;
  let client: Client;
  before(async () => {
    await mkdir(SHOTS, { recursive: true });
    browser = await launch(await getBrowser(() => {}));
    client = await Client.start({ roots: [pathToFileURL(EXAMPLES).toString()] });
  });
  after(async () => {
    await client?.stop();
    await browser?.close();
  });

  for (const [name, { bundle, html, told, shows }] of Object.entries(PANELS))
    it(`${name}: can be read, nothing covers anything, in four themes and two widths`, async () => {
      const message = await told(client);
      const answer = async (heard: unknown) => ((heard as { type?: unknown }).type === 'ready' ? [message] : []);
      const page = await openPage({ browser, theme: 'light', size: WIDTHS.narrow, html, bundle, answer });
      await page.waitForSelector(shows);
      await settled(page);
      for (const [theme, width] of LOOKS) {
        await page.setViewportSize(WIDTHS[width]);
        await wear(page, theme);
        await settled(page);
        await judge(page, `${name}-${theme}-${width}`);
      }
      await page.close();
    });
});

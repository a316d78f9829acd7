/** What reports say, as one text: the lines of each under the other. */
import { factsLines } from '../../server/src/report/facts';
import { jobFactsLines } from '../../server/src/report/job';
import { shownLine } from '../../server/src/report/line';
import { alternativesLines, planLines } from '../../server/src/report/plan';
import { reportLines } from '../../server/src/report/text';

export const factsText = (...of: Parameters<typeof factsLines>) => factsLines(...of).join('\n');
export const jobFactsText = (...of: Parameters<typeof jobFactsLines>) => jobFactsLines(...of).join('\n');
export const planText = (...of: Parameters<typeof planLines>) => planLines(...of).join('\n');
export const alternativesText = (...of: Parameters<typeof alternativesLines>) => alternativesLines(...of).join('\n');

/** As a terminal gets it. */
export function reportText(files: Parameters<typeof reportLines>[0], colours = false): string {
  return reportLines(files)
    .map((line) => `${shownLine(line, colours)}\n`)
    .join('');
}

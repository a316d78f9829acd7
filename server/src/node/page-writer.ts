/** A part as a page of its own: what makes it is loaded when it is asked for. */
import { ExportError, type Writer } from '../export/writer';
import { sharedMeshes } from './mesher';

export const pageWriter: Writer = {
  extensions: ['.html'],
  title: 'HTML: one page for any browser, its view can be turned',
  async write(request) {
    const { pageKit, partPage } = await import('./page-door');
    return partPage(request, sharedMeshes(), await pageKit()).catch((error: unknown) => {
      // One of that file's own class is none of ours.
      throw error instanceof Error && error.name === ExportError.name ? new ExportError(error.message) : error;
    });
  },
};

/** The editor host into the user's cache, so that the suites find it there. */
import { endChildrenWithUs } from './children';
import { getHost } from './host';

endChildrenWithUs();
getHost((line) => console.log(`editor: ${line}`)).then(
  () => process.exit(0),
  (error) => {
    console.error(error instanceof Error ? error.message : error);
    process.exit(1);
  },
);

/** A process of its own around test-electron, so that VS Code and all it starts can be ended together. */
import { runTests } from '@vscode/test-electron';

runTests(JSON.parse(process.argv[2] ?? '{}')).then(
  () => process.exit(0),
  (error) => {
    console.error(String(error));
    process.exit(1);
  },
);

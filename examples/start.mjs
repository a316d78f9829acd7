// `npm start`: judges the gimbal, then the deliberately faulty parts, and says how to go on.
import { spawnSync } from 'node:child_process';

const cli = new URL('../dist/cli.js', import.meta.url).pathname;
const check = (...paths) => spawnSync(process.execPath, [cli, 'check', ...paths], { stdio: 'inherit' }).status;

console.log('\nThe gimbal, as it will be made:\n');
const sound = check('examples/gimbal/parts', 'examples/gimbal/campus.shop.yaml', 'examples/gimbal/gimbal.job.yaml');

console.log('\nThe same with mistakes in it, as they happen (examples/gimbal/faulty):\n');
const faulty = check('examples/gimbal/faulty');

console.log(`To see it in an editor as you type:
  with VS Code:      npm run package, then install the .vsix it writes (Extensions: Install from VSIX) and open examples/gimbal
  without VS Code:   npm run try     (fetches an editor server and opens the examples in the browser)
To start a part of your own:  node dist/cli.js new my-part
`);
process.exitCode = sound === 0 && faulty === 1 ? 0 : 1;

// `npm start`: judges the gimbal, then the same with mistakes in it, and says how to go on.
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const cli = fileURLToPath(new URL('../dist/cli.js', import.meta.url));
const run = (args, stdio) =>
  spawnSync(process.execPath, [cli, 'check', ...args], { stdio, encoding: 'utf8', maxBuffer: 1 << 28 });

console.log('\nThe gimbal, as it will be made (examples/gimbal):\n');
const sound = ['examples/gimbal/parts', 'examples/gimbal/campus.shop.yaml', 'examples/gimbal/gimbal.job.yaml'];
const { files } = JSON.parse(run([...sound, '--format', 'json'], ['ignore', 'pipe', 'inherit']).stdout);
for (const { part, findings } of files) {
  if (!part) continue;
  const stock = part.stock_mm.map((mm) => Number(mm.toFixed(1))).join(' x ');
  const state = findings.length === 0 ? 'nothing found' : `${findings.length} found`;
  console.log(
    `  ${part.name.padEnd(15)} ${part.mass_g.toFixed(1).padStart(6)} g   from ${stock.padEnd(18)} mm   ${state}`,
  );
}
console.log();
const clean = run(sound, 'inherit').status;

console.log('\nThe same with mistakes in it, as they happen (examples/gimbal/faulty):\n');
const faulty = run(['examples/gimbal/faulty'], 'inherit').status;

console.log(`
To see it in an editor as you type:
  with VS Code:      npm run package, then install the .vsix it writes (Extensions: Install from VSIX) and open examples/gimbal
  without VS Code:   npm run try     (fetches an editor server and opens the examples in the browser)
To start a part of your own:   node dist/cli.js new my-part
`);
process.exitCode = clean === 0 && faulty === 1 ? 0 : 1;

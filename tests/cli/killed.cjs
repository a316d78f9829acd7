/**
 * Loaded before the program by a test, never by the program: counts every operation that changes the disk and kills the
 * process, as a loss of power would, before the one of number KILL_AT; a write is stopped half-way too. The operations
 * are written to the file KILL_LOG as they come.
 */
const { appendFileSync, writeSync } = require('node:fs');
const files = require('node:fs/promises');

const at = Number(process.env.KILL_AT);
let count = 0;

function step(name) {
  appendFileSync(process.env.KILL_LOG, `${name}\n`);
  if (count++ === at) process.kill(process.pid, 'SIGKILL');
}

for (const name of ['link', 'rename', 'unlink', 'writeFile', 'truncate', 'chmod', 'copyFile', 'appendFile', 'rm']) {
  const real = files[name];
  files[name] = (...args) => {
    step(name);
    return real(...args);
  };
}

const open = files.open;
files.open = async (path, flags = 'r', mode = undefined) => {
  const writes = typeof flags === 'string' && flags !== 'r';
  if (writes) step(`open ${flags}`);
  const file = await open(path, flags, mode);
  for (const name of [
    'write',
    'writeFile',
    'sync',
    'datasync',
    'chmod',
    'chown',
    'truncate',
    ...(writes ? ['close'] : []),
  ]) {
    const real = file[name].bind(file);
    file[name] = (...args) => {
      step(name);
      if (name === 'write') {
        const [bytes, from = 0, length = bytes.length - from] = args;
        if (count === at) writeSync(file.fd, bytes, from, length >> 1);
        step('write, half done');
      }
      return real(...args);
    };
  }
  return file;
};

// Loaded before a door: tells, line by line, which of its modules and threads were loaded, when it ends.
const { appendFileSync } = require('node:fs');
const threads = require('node:worker_threads');
const { basename } = require('node:path');

const told = (words) => appendFileSync(process.env.SCRIBELINE_LOADED, `${words}\n`);
const { Worker } = threads;
threads.Worker = class extends Worker {
  constructor(file, ...more) {
    told(`thread ${basename(String(file))}`);
    super(file, ...more);
  }
};
process.on('exit', () => {
  for (const file of Object.keys(require.cache)) if (/[\\/]dist[\\/]/.test(file)) told(basename(file));
});

/**
 * Loaded before the program and each process that judges for it by a test, never by the program: ends such a one in the midst
 * of its work. DIE says how; DIE_OVER is part of the name of the file that it ends over, each time, or where DIE_ONCE
 * names a file that it makes, the first time only.
 */
const { closeSync, openSync } = require('node:fs');
const files = require('node:fs/promises');
const processes = require('node:child_process');

const isJudge = process.argv[2] === '--judges';

const { DIE, DIE_OVER, DIE_ONCE } = process.env;

/** Whether it is this one's turn: a file can be made by one only. */
function isTurn() {
  if (!DIE_ONCE) return true;
  try {
    closeSync(openSync(DIE_ONCE, 'wx'));
    return true;
  } catch {
    return false;
  }
}

const WAYS = {
  exit: () => process.exit(7),
  throw: () =>
    setImmediate(() => {
      throw new Error('made up by a test\n    at nowhere (x.js:1:1)');
    }),
  memory: () => {
    const kept = [];
    for (;;) kept.push(new Array(1e6).fill(kept.length));
  },
};

if (isJudge && WAYS[DIE]) {
  const open = files.open;
  files.open = (path, ...args) => {
    if (String(path).includes(DIE_OVER) && isTurn()) {
      WAYS[DIE]();
      return new Promise(() => {});
    }
    return open(path, ...args);
  };
}

/** Ended from outside, after so many answers. */
if (!isJudge && DIE === 'terminate') {
  let answers = 0;
  const { fork } = processes;
  processes.fork = (...args) => {
    const judge = fork(...args);
    judge.on('message', () => {
      if (++answers % Number(DIE_OVER) === 0) judge.kill('SIGKILL');
    });
    return judge;
  };
}
/** None can begin. */
if (isJudge && DIE === 'born') process.exit(7);

/** Loaded before the program by a test, never by the program: there is one processor, so that one thread judges all. */
const os = require('node:os');

os.availableParallelism = () => 1;

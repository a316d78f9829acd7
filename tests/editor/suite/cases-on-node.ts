/** The same, and what needs a machine: processes to be killed, git. After a crash all the rest is as ever. */
import './upkeep';
import './cases';
import './compare-history';

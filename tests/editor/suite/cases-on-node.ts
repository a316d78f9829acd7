/** The same, and what needs a machine: processes to be killed, git. */
import './cases';
import './compare-history';
import './upkeep';

/** Every file of cases; importing one registers it with Mocha. */
import './first-finding';
import './rule-page';
import './writing';
import './names';
import './upkeep';
import './part-view';
import './plan';
import './export';
import './job';
import './record';
import './compare';
import './sheet';

/** Every file of cases for any editor, on a desktop and in a browser; importing one registers it with Mocha. */
import './first-finding';
import './rule-page';
import './writing';
import './starting';
import './first-part';
import './names';
import './part-view';
import './plan';
import './export';
import './job';
import './record';
import './compare';
import './sheet';

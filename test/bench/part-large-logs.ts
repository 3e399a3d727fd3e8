// Large logs beside general parsers of the same bytes, which hold all they read at once: a part of `npm run bench`.
import { csvWays, largeCsv, largeNmea, nmeaWays } from './logs.ts';
import { report, reportPeak } from './part.ts';
import { sideBySide } from './side-by-side.ts';

const ROWS = 360_000;
report('A large table', `${ROWS} rows of 8 columns`, await sideBySide(csvWays(largeCsv(ROWS)), 7));
const SENTENCES = 1_000_000;
report('Many sentences', `${SENTENCES} of NMEA 0183`, await sideBySide(nmeaWays(largeNmea(SENTENCES)), 3));
reportPeak();

/** `tsx tests/closing/again.ts REPORT...`: the test files that are worth another run, one a line. */
import { another, filesOf } from './failures';

for (const place of another(process.argv.slice(2).flatMap(filesOf))) console.log(place);

import { createSerialOpener } from '#hardware/ports/serialport-opener';
import { PortError } from '#lib/measure/link/port';
import { monotonic } from '#lib/units/time';
import { asEnvironmentAsks } from './nobody';

/**
 * A program for another process or another user: opens the port named by its argument, says `open` or the failure's code on its
 * standard output, and holds the port until its standard input ends.
 */
const [path = ''] = process.argv.slice(2);
const opener = createSerialOpener({ now: () => monotonic(performance.now()) });
try {
  asEnvironmentAsks();
  const port = await opener.open(path, { baudRate: 9600, frame: '8N1' }, { data() {}, closed() {} });
  console.log('open');
  process.stdin.resume().on('end', () => void port.close());
} catch (error) {
  console.log(error instanceof PortError ? error.code : String(error));
}

/** The barest possible pipe from a serial port to a page: serialport → line parser → socket.io → textContent. Prints its port. */
import { createServer } from 'node:http';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AddressInfo } from 'node:net';
import { dirname, join } from 'node:path';
import { ReadlineParser } from '@serialport/parser-readline';
import { SerialPort } from 'serialport';
import { Server } from 'socket.io';

const [path = ''] = process.argv.slice(2);
const client = join(dirname(createRequire(import.meta.url).resolve('socket.io-client/package.json')), 'dist/socket.io.min.js');
const PAGE = `<!doctype html><title>bare</title><p id="weight">?</p><script src="/client.js"></script>
<script>const p = document.getElementById('weight'); io({ transports: ['websocket'] }).on('w', (text) => { p.textContent = text; });</script>`;

const http = createServer((request, response) => {
  const script = request.url === '/client.js';
  response.writeHead(200, { 'content-type': script ? 'text/javascript' : 'text/html' }).end(script ? readFileSync(client) : PAGE);
});
const io = new Server(http, { transports: ['websocket'], perMessageDeflate: false });
const port = new SerialPort({ path, baudRate: 9600 });
port.on('error', (error: Error) => {
  console.error(error.message);
  process.exit(1);
});
// "ST,+00012.3  g": what stands behind the comma, without the unit.
port.pipe(new ReadlineParser({ delimiter: '\r\n' })).on('data', (line: string) => io.emit('w', line.slice(3, 12)));
http.listen(0, '127.0.0.1', () => console.log((http.address() as AddressInfo).port));

import { mkdtempSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readArgs } from '#server/args';
import { BadOption } from '#server/options';

const read = (...argv: string[]) => {
  const options = readArgs(argv, { XDG_DATA_HOME: '/var/soap' });
  if (options === 'help') throw new Error('help was not asked for');
  return options;
};

describe('the command line', () => {
  it('starts on loopback, outside the checkout, with no instruments named', () => {
    expect(read()).toEqual({
      port: 4173,
      data: '/var/soap/potwatch',
      host: '127.0.0.1',
      allowHosts: [],
      instruments: [],
      practice: false,
      ptyIsReal: false,
      past: true,
      seed: 41,
      dev: false,
    });
  });

  it('reads a scale with shape, speed and character frame, and a second one as the small scale', () => {
    const { instruments } = read('--scale', '/dev/a,stx-status,1200,7E1', '--scale=/dev/b');
    expect(instruments).toMatchObject([
      { kind: 'scale', role: 'main', path: '/dev/a', shape: 'stx-status', serial: { baudRate: 1200, frame: '7E1' } },
      { kind: 'scale', role: 'fine', path: '/dev/b', shape: null, serial: { baudRate: 9600, frame: '8N1' } },
    ]);
  });

  it('reads what the plate of a scale says, with or without the rest', () => {
    const { instruments } = read('--scale', '/dev/a,stx-status,1200,7E1,capacity=6kg,division=0.5g', '--scale', '/dev/b,division=10mg');
    expect(instruments).toMatchObject([
      { path: '/dev/a', shape: 'stx-status', serial: { baudRate: 1200, frame: '7E1' }, capacity: 6_000_000, division: 500 },
      { path: '/dev/b', shape: null, serial: { baudRate: 9600, frame: '8N1' }, capacity: null, division: 10 },
    ]);
    expect(read('--scale', '/dev/a,,,').instruments).toMatchObject([
      { shape: null, serial: { baudRate: 9600, frame: '8N1' }, capacity: null },
    ]);
  });

  it('reads probes with and without the vessel they stand in', () => {
    const { instruments } = read('--probe', 'lye=/dev/c', '--probe', '/dev/d,probe-line,19200');
    expect(instruments).toMatchObject([
      { kind: 'probe', use: 'lye', path: '/dev/c', shape: null },
      { kind: 'probe', use: null, path: '/dev/d', shape: 'probe-line', serial: { baudRate: 19200 } },
    ]);
    expect(read('--probe', 'mould=/dev/e').instruments).toMatchObject([{ use: 'mould' }]);
  });

  it.each([
    [['--prot', '1'], 'did you mean --port?'],
    [['--scael', '/dev/a'], 'did you mean --scale?'],
    [['--scale', '/dev/a,header-coma'], 'did you mean header-comma?'],
    [['--probe', 'lie=/dev/a'], 'did you mean lye?'],
    [['--quite-unlike', '1'], 'possible: --port'],
    [['--port'], 'needs a value'],
    [['--port', '70000'], 'no whole number from 0 to 65535'],
    [['--port', '80x'], 'no whole number'],
    [['--port', '1', '--port', '2'], 'given twice'],
    [['--scale', 'ttyUSB0'], 'a port is a path'],
    [['--scale', 'practice', '--scale', '/dev/a'], 'cannot stand beside'],
    [['--scale', '/dev/a', '--scale', '/dev/b', '--scale', '/dev/c'], 'at most two scales'],
    [['--scale', '/dev/a,stx-status,9600,8N2'], 'frame "8N2" is not known'],
    [['--scale', '/dev/a,capcity=6kg'], 'did you mean capacity?'],
    [['--scale', '/dev/a,capacity=6kk'], 'did you mean kg?'],
    [['--scale', '/dev/a,capacity=6'], 'capacity "6" is no mass up to 50 kg with its unit'],
    [['--scale', '/dev/a,division=0g'], 'division "0g" is no mass'],
    [['--scale', '/dev/a,division=0.1.2g'], 'is no mass'],
    [['--scale', '/dev/a,capacity=60kg'], 'up to 50 kg'],
    [['--scale', '/dev/a,capacity=1g,division=6kg'], 'the division is the smaller one'],
    [['--scale', '/dev/a,capacity=1kg,capacity=2kg'], 'capacity is given twice'],
    [['--scale', '/dev/a', '--scale', '/dev/a,stx-status'], '/dev/a is given to two instruments'],
    [['--scale', '/dev/a', '--probe', 'lye=/dev/a'], '/dev/a is given to two instruments'],
    [['--probe', 'lye=/dev/a', '--probe', 'lye=/dev/b'], 'the lye probe is given twice'],
    [['--scale', 'practise'], 'did you mean practice?'],
    [['--allow-host', 'http://bench.local/'], 'did you mean bench.local?'],
    [['--allow-host', 'bench.local:4173'], 'did you mean bench.local?'],
    [['--allow-host', 'fe80::zz'], 'is no host name'],
    [['--allow-host', 'the bench'], 'is no host name'],
    [['--dev=1'], 'takes no value'],
    [['start'], 'options begin with --'],
  ])('%j is refused with what to do: %s', (argv, words) => {
    expect(() => readArgs(argv, {})).toThrow(BadOption);
    expect(() => readArgs(argv, {})).toThrow(words);
  });

  it('knows one port by all its names', () => {
    const folder = mkdtempSync(join(tmpdir(), 'args-'));
    const link = join(folder, 'usb-scale');
    symlinkSync('/dev/null', link);
    expect(() => readArgs(['--scale', '/dev/null', '--scale', link], {})).toThrow(`${link} is given to two instruments`);
    expect(() => readArgs(['--scale', '/dev/not-there', '--probe', '/dev//not-there'], {})).toThrow('is given to two instruments');
    rmSync(folder, { recursive: true });
  });

  it('asks for help before it refuses anything else', () => {
    expect(readArgs(['--help'], {})).toBe('help');
  });
});

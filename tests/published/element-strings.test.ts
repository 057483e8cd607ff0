import { describe, expect, it } from 'vitest';
import { isGtin, readScan } from '#lib/work/lots/gs1';

/** 28 November 2026. */
const NOW = Date.UTC(2026, 10, 28);
const GS = '\u001d';

const expiry = (six: string) => {
  const read = readScan(`(17)${six}`, NOW);
  return read.ok ? read.said.expiry : read.fault;
};

describe('element strings on a supplier’s label', () => {
  it('reads one as a reader sends it and as it stands below the bars', () => {
    // BWIPP, wiki "GS1 Application Identifier Standard Format": GTIN 09521234543213, expiry 1 January 2010, batch 123ABC, serial.
    const said = { gtin: '09521234543213', lot: '123ABC', expiry: '2010-01-01', bestBefore: null, net: null };
    const then = Date.UTC(2009, 0, 1);
    expect(readScan(`]C101095212345432131710010110123ABC${GS}211234567890`, then)).toEqual({ ok: true, said });
    expect(readScan('(01)09521234543213(17)100101(10)123ABC(21)1234567890', then)).toEqual({ ok: true, said });
    // FNC1 first, which a reader may send as a separator too.
    expect(readScan(`]d2${GS}01095212345432131710010110123ABC${GS}211234567890`, then)).toEqual({ ok: true, said });
  });

  it('takes a day of 00 for the month’s last, and the year near now (GS1 General Specifications, 3.4.7 and 7.12)', () => {
    expect(expiry('280200')).toBe('2028-02-29');
    expect(expiry('270200')).toBe('2027-02-28');
    expect(expiry('271200')).toBe('2027-12-31');
    // 51 or more ahead is the century before, 50 or more behind the next.
    expect(expiry('761231')).toBe('2076-12-31');
    expect(expiry('771231')).toBe('1977-12-31');
    for (const none of ['261301', '260230', '26013', 'abcdef']) expect(expiry(none)).toBe('date');
  });

  it('knows a GTIN by its check digit (GS1 check digit calculation: 629104150021 has 3)', () => {
    expect(isGtin('06291041500213')).toBe(true);
    expect(isGtin('06291041500214')).toBe(false);
    expect(readScan('(01)06291041500214(10)A1', NOW)).toEqual({ ok: false, fault: 'check-digit' });
  });

  it('reads a net weight with its decimals, steps over what it does not ask for, and refuses what is cut off', () => {
    // Figure 7.8.4-2: 31 has ten places with its identifier; 10 ends with a separator or the string.
    expect(readScan(`0106291041500213310300251010LOT-7${GS}3799`, NOW)).toEqual({
      ok: true,
      said: { gtin: '06291041500213', lot: 'LOT-7', expiry: null, bestBefore: null, net: 2_510_000 },
    });
    expect(readScan(']C1010629104150021', NOW)).toEqual({ ok: false, fault: 'cut-off' });
    expect(readScan(`]C117270${GS}100`, NOW)).toEqual({ ok: false, fault: 'cut-off' });
    expect(readScan('CO 26-07', NOW)).toEqual({ ok: false, fault: 'not-gs1' });
    expect(readScan('', NOW)).toEqual({ ok: false, fault: 'not-gs1' });
  });
});

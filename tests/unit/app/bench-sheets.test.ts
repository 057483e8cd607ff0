import { describe, expect, it } from 'vitest';
import { started } from '#tests/support/batch';
import { sheetMessages } from '../../../app/bench/messages-sheets';

describe('what a sheet offers is taken by the record', () => {
  it.each([...sheetMessages.correct.reasons])('crossed out as %s, without a note', (reason) => {
    const rig = started();
    rig.setVessel('coconut');
    rig.accept('coconut', 280);
    const { entry } = rig.line('coconut').contributions[0]!;
    expect(rig.code('strike', { entry, reason, note: '', held: true })).toContain('struck');
  });

  it.each([...sheetMessages.ending.parkReasons])('parked: %s', (reason) => {
    expect(started().code('park', { reason })).toBe('parked');
  });

  it.each([...sheetMessages.ending.reasons])('stopped: %s', (reason) => {
    expect(started().code('abandon', { reason, held: true })).toBe('abandoned');
  });
});

import { describe, expect, it } from 'vitest';
import { roleMay, type CommandKind } from '#lib/work/batch/index';
import { planOf, started, changed } from '#tests/support/batch';

const KINDS: Readonly<Record<CommandKind, true>> = {
  start: true,
  replan: true,
  'choose-lot': true,
  'confirm-gate': true,
  'set-vessel': true,
  accept: true,
  'type-weight': true,
  'weigh-back': true,
  lift: true,
  question: true,
  'answer-question': true,
  'answer-over': true,
  'choose-remedy': true,
  'do-remedy-act': true,
  'state-wrong': true,
  strike: true,
  move: true,
  withdraw: true,
  lose: true,
  split: true,
  'name-pattern': true,
  'set-container': true,
  part: true,
  'pour-mould': true,
  'weigh-left': true,
  'state-batter': true,
  'ask-photo': true,
  'note-temperature': true,
  dissolve: true,
  override: true,
  join: true,
  'stamp-trace': true,
  'go-away': true,
  'come-back': true,
  resume: true,
  park: true,
  'take-up': true,
  abandon: true,
  close: true,
  'check-scale': true,
  'raise-alarm': true,
  'end-alarm': true,
  silence: true,
  'lose-instrument': true,
  'regain-instrument': true,
  'mark-clock-jump': true,
  note: true,
  amend: true,
  'keep-photo': true,
};
const kinds = Object.keys(KINDS) as CommandKind[];

describe('roles', () => {
  it('A6: a watcher may silence and nothing else', () => {
    expect(kinds.filter((kind) => roleMay('watcher', kind))).toEqual(['silence']);
  });

  it('A6: what a watcher wants is refused before it is looked at', () => {
    const rig = started();
    const before = rig.now;
    expect(rig.code('note', { text: 'hello' }, { role: 'watcher' })).toBe('not-yours');
    expect(rig.code('abandon', { reason: 'why not', held: true }, { role: 'watcher' })).toBe('not-yours');
    expect(rig.now).toBe(before);
  });

  it('a maker may do everything; the program only what needs no person', () => {
    expect(kinds.filter((kind) => !roleMay('maker', kind))).toEqual([]);
    expect(kinds.filter((kind) => roleMay('program', kind))).toEqual([
      'set-vessel',
      'accept',
      'weigh-back',
      'lift',
      'question',
      'set-container',
      'note-temperature',
      'raise-alarm',
      'end-alarm',
      'silence',
      'lose-instrument',
      'regain-instrument',
      'mark-clock-jump',
    ]);
  });

  it('the program accepts by itself only what is within, named by its lot, and no hydroxide', () => {
    const program = { role: 'program', via: 'bench' } as const;
    const rig = started();
    rig.setVessel('coconut');
    const how = 'by-itself' as const;
    const code = (net: number, body = {}) => {
      const decision = rig.accept('coconut', net, { how, ...body }, program);
      return decision.ok ? 'ok' : decision.refusal.code;
    };
    expect(code(280, { how: 'go-on' })).toBe('not-yours');
    expect(code(280, { how: 'held' })).toBe('not-yours');
    expect(code(200)).toBe('out-of-tolerance');
    expect(code(200, { part: true })).toBe('needs-hold');
    expect(code(200, { shortIsFine: true })).toBe('needs-hold');
    expect(code(281)).toBe('ok');

    const nameless = started(changed(planOf('alder-and-oat'), 'coconut', { lot: null }));
    nameless.setVessel('coconut');
    const refused = nameless.accept('coconut', 280, { how }, program);
    expect(refused).toMatchObject({ ok: false, refusal: { code: 'needs-lot' } });
    expect(nameless.accept('coconut', 280).ok).toBe(true);
  });
});

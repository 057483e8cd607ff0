import { describe, expect, it } from 'vitest';
import type { StoryEvent } from '#lib/work/batch/index';
import { STORY_CODES } from '#lib/work/batch/review';
import { messages } from '#lib/words/review/messages';
import { storyWords } from '#lib/words/review/messages-story';
import type { Facts } from '#lib/words/review/messages-story';
import { amountsByHand } from '#lib/words/review/told';
import { showIn } from '#lib/words/quantities';
import type { Sentence } from '#lib/words/sentence';

const facts = (params: Facts['params'] = {}): Facts => ({
  params,
  show: showIn({ locale: 'en-GB', mass: 'g', temperature: 'C' }),
  step: null,
  instrument: (id) => id,
  typed: false,
  byHand: [],
  answer: null,
  away: null,
});
const textOf = (sentence: Sentence): string => sentence.map((piece) => (typeof piece === 'string' ? piece : piece.text)).join('');
const told = (code: (typeof STORY_CODES)[number], params?: Facts['params']): string => {
  const { head, rest } = storyWords[code](facts(params));
  return `${textOf(head)} ${textOf(rest)}`.trim();
};

describe('the story in words', () => {
  it.each(STORY_CODES)('says something whole of %s when the record lacks everything of it', (code) => {
    const said = told(code);
    expect(said).toMatch(/^[A-Z].{4,}[.”]$/);
    expect(said).not.toMatch(/NaN|undefined|null|  | ,| \./);
  });

  it('has words of its own for a gate and a trace that nobody named', () => {
    expect(told('gate-confirmed')).toBe('Precautions confirmed.');
    expect(told('gate-confirmed', { gate: 'hydroxide' })).toBe('Precautions for the hydroxide confirmed.');
    expect(told('trace')).toBe('Trace.');
    expect(told('lot-chosen', { material: 'Coconut oil', lot: 'CO 9', despite: 'quarantined' })).toBe(
      'Coconut oil: lot CO 9 chosen. It was set apart; a person held to use it.',
    );
    expect(told('trace', { mark: 'medium', batter: 47_300 })).toBe('Medium trace. Batter at 47.3 °C.');
  });

  it('names the line whose target moved, and where to, in whole figures', () => {
    expect(told('replanned', { material: 'Rapeseed oil', line: 'rapeseed', to: 187_450, reason: 'olive 12.6 g over' })).toBe(
      'Rapeseed oil: target moved to 187.45 g. Olive 12.6 g over.',
    );
  });

  it('says by hand of a mass that a person stated, and nothing of one in an older line', () => {
    const of = { mass: 412_600, from: 'oat cup', to: 'clay cup', vessel: 'oils pot', cause: 'spill' };
    const said = (source: Facts['params']) => (['moved', 'withdrawn', 'lost'] as const).map((code) => told(code, { ...of, ...source }));
    for (const sentence of said({ source: 'by-hand' })) expect(sentence).toContain('412.6 g by hand ');
    for (const sentence of said({})) expect(sentence).not.toContain('by hand');
    expect(told('split', { vessel: 'oils pot', parts: 1, net: 512_300 })).toContain('512.3 g, by the loss of the oils pot.');
    expect(told('split', { vessel: 'oils pot', parts: 2, source: 'by-hand' })).toBe('Poured into two moulds. Their weights by hand.');
    expect(told('split', { vessel: 'oils pot', parts: 1, source: 'by-hand' })).toBe('Poured into one mould. Its weight by hand.');
  });

  it('says what was typed with its unit once', () => {
    const typed = { material: 'Olive oil', net: 1_006_408, unit: 'oz' };
    expect(told('typed-by-hand', { ...typed, text: '35.5' })).toContain('Typed as “35.5 oz” and read back.');
    expect(told('typed-by-hand', { ...typed, text: '2 lb 3.5 oz' })).toContain('Typed as “2 lb 3.5 oz” and read back.');
  });
});

const event = (code: string, source?: string) => ({ code, params: source === undefined ? {} : { source } }) as StoryEvent;

describe('what is said of a batch first', () => {
  const none = { overPours: 0, overrides: 0, byHand: 0 };

  it('counts what was stated by hand besides weights: with such there is no “nothing typed by hand”', () => {
    const amounts = amountsByHand([
      event('withdrawn', 'by-hand'),
      event('lost', 'by-hand'),
      event('wrong-stated', 'by-hand'),
      event('moved'),
    ]);
    expect(amounts).toBe(2);
    expect(messages.lead.departures(none, 0, amounts)).toBe('Two other amounts by hand.');
    expect(messages.lead.departures(none, 0)).toContain('nothing typed by hand');
  });

  it('says of lines begun and not ended that none is finished, not that nothing is weighed', () => {
    expect([messages.lead.lines(0, 6, 0, 1), messages.lead.lines(0, 6, 0)]).toEqual(['No line is finished.', 'Nothing is weighed yet.']);
  });
});

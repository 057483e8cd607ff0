import { numberText } from '#lib/units/format';
import { batchMessages } from '../batch-messages';
import { showIn } from '../quantities';
import { amountsByHand, lettersOf, storyOf } from '../review/told';
import { messages } from '../review/messages';
import { clockText, dateText, dayText } from '../times';
import { capital, listed } from '../words';
import type { RecordFacts } from './facts';
import { materialsTable, weightsTable } from './materials';
import { recordWords } from './messages';
import { pouredTable } from './poured';
import { processTable, yieldTable } from './process';
import { scaleLetters, scaleTable } from './scales';
import type { Block, RecordEnd, RecordSheet } from './sheet';
import { toldEvents } from './told';

/**
 * The batch record for paper. What it holds follows the headings of good manufacturing practice for cosmetics (ISO 22716:2007, 7.2:
 * equipment, formula, materials by lot and quantity, steps, in-process results, deviations, yield; from memory, the text was not seen).
 */
export const recordSheet = (facts: RecordFacts): RecordSheet => {
  const { review } = facts;
  const story = storyOf(review);
  const scales = scaleLetters(facts);
  const blocks: readonly Block[] = [
    materialsTable(facts, scales, lettersOf(story)),
    { kind: 'pair', tables: [processTable(facts), yieldTable(facts)] },
    pouredTable(facts),
    scaleTable(facts),
    { kind: 'told', title: recordWords.story.title, note: recordWords.story.note, events: toldEvents(story, facts) },
    weightsTable(facts, scales),
    {
      kind: 'by-hand',
      title: recordWords.hand.title,
      lines: [[recordWords.hand.remarks], [''], recordWords.hand.sign],
    },
  ];
  return {
    title: recordWords.title,
    mark: review.summary.mark,
    warning: recordWords.warning[review.summary.realm],
    facts: headFacts(facts),
    blocks,
    foot: footOf(facts),
  };
};

const headFacts = ({ review, display, personName }: RecordFacts): RecordSheet['facts'] => {
  const { facts } = recordWords;
  const { summary, lines, story, formula, bench, startedBy } = review;
  const zone = { offsetMin: story[0]?.offsetMin ?? 0, locale: display.locale };
  const day = `${dayText(summary.startedWall, zone)} ${dateText(summary.startedWall, zone).split(' ').at(-1) ?? ''}`.trim();
  const ended = summary.endedWall === null ? null : clockText(summary.endedWall, zone);
  const people = [...new Set([startedBy, ...lines.flatMap(({ contributions }) => contributions.map(({ by }) => by))])];
  const show = showIn(display);
  const moved = lines.filter((line) => line.moved).length;
  return [
    { name: facts.product, said: [facts.formula(formula.name, formula.version)] },
    { name: facts.made, said: [facts.madeAt(day, clockText(summary.startedWall, zone), ended)] },
    { name: facts.by, said: [listed(people.map(personName))] },
    { name: facts.status, said: [capital(batchMessages.status[summary.status])] },
    { name: facts.where, said: [bench] },
    { name: facts.size, said: [facts.sizeOf(show.mass(summary.actual), show.mass(summary.planned))] },
    {
      name: facts.departures,
      said: [messages.lead.departures(summary, moved, amountsByHand(story))],
    },
    ...(review.cleaned.length === 0 ? [] : [{ name: facts.cleaned, said: [review.cleaned.join(', ')] }]),
  ];
};

const footOf = ({ review: { record, summary }, head, display: { locale } }: RecordFacts): RecordEnd => {
  const { foot } = recordWords;
  return {
    hash: record.link.match(/.{1,4}/g)?.join(' ') ?? '',
    spoken: head?.words ?? '',
    code: head?.qr ?? '',
    sentences: [
      foot.head(numberText(record.entries, locale), numberText(record.seq, locale), messages.record.realms[summary.realm]),
      foot.honest,
      `${foot.voices} ${foot.caution}`,
    ],
  };
};

import { goAway } from './away';
import type { ConductorEvent, Press } from '../conductor-types';
import { sayNow } from './say';
import type { Choice, Scene, Scenery } from './stage';

/**
 * Touch, key and pedal are the same three intents. A press acts on what has been shown for a moment: one that was already under way when
 * the cards came up is swallowed.
 */
export const SWALLOW_MS = 600;

/** What a press would act on, as one text: when it changes, the presses under way were meant for something else. */
const keyOf = (scene: Scene): string =>
  [scene.phase, scene.line?.plan.id ?? '', scene.goOn?.code ?? '', ...(scene.choices ?? []).map(({ card }) => card.code)].join(' ');

/** Notes since when this scene stands. A single card with nothing beside it is the highlighted one. */
export const followChoices = (stage: Scenery, scene: Scene): void => {
  const key = keyOf(scene);
  if (key === stage.memory.choice.key) return;
  const only = (scene.choices?.length ?? 0) === 1 && (scene.goOn ?? null) === null;
  stage.memory.choice = { key, selected: only ? 0 : -1, since: stage.now };
};

const isTooSoon = (stage: Scenery): boolean => stage.now - stage.memory.choice.since < SWALLOW_MS;

export const press = (stage: Scenery, scene: Scene, { key, hold }: Press): void => {
  if (key === 'silence') return silence(stage);
  if (key === 'back' && hold) return goAway(stage);
  if (isTooSoon(stage)) return;
  if (key === 'back') return back(stage, scene);
  if (hold) return holdOn(stage, scene);
  const { goOn } = scene;
  if (goOn !== undefined && goOn !== null && !goOn.hold && stage.memory.choice.selected === -1) return goOn.act();
  move(stage, scene, 1);
};

/** Silence stops the sound of every alarm; the alarms stand. */
const silence = (stage: Scenery): void => {
  for (const [code, alarm] of Object.entries(stage.batch.alarms)) {
    if (!alarm.silenced) stage.wants.push({ kind: 'silence', body: { code: code as keyof typeof stage.batch.alarms } });
  }
};

const back = (stage: Scenery, scene: Scene): void => {
  if (scene.back !== undefined) scene.back();
  else move(stage, scene, -1);
};

/** A hold takes the highlighted card, else it is a firm "go on". */
const holdOn = (stage: Scenery, scene: Scene): void => {
  const chosen = scene.choices?.[stage.memory.choice.selected];
  if (chosen !== undefined) return takeChoice(stage, chosen, true);
  if (scene.goOn !== undefined && scene.goOn !== null) return scene.goOn.act();
  move(stage, scene, 1);
};

/** Moves along the cards and reads each aloud. Where a "go on" stands beside them it has its own place before the first. */
const move = (stage: Scenery, scene: Scene, by: 1 | -1): void => {
  const choices = scene.choices ?? [];
  if (choices.length === 0) return;
  const first = (scene.goOn ?? null) === null ? 0 : -1;
  const span = choices.length - first;
  const from = stage.memory.choice.selected;
  const next = from < first ? (by === 1 ? 0 : choices.length - 1) : first + ((from - first + by + span) % span);
  stage.memory.choice = { ...stage.memory.choice, selected: next };
  const card = choices[next]?.card;
  if (card !== undefined) sayNow(stage, 'card', { ...card.params, card: card.code, ...(card.why === null ? {} : { why: card.why }) });
  else if (scene.say !== undefined && scene.say !== null) sayNow(stage, scene.say.code, scene.say.params);
};

/** Holding the closed card of joining does nothing but tell that somebody would join now. */
const takeChoice = (stage: Scenery, choice: Choice, hold: boolean): void => {
  const { card } = choice;
  if (card.enabled && (hold || !card.hold)) choice.take();
  if (!card.enabled && hold && card.code === 'join') stage.memory.joinAsked = stage.now;
};

/** A card taken by touch must still be the one that was touched. */
export const take = (stage: Scenery, scene: Scene, event: Extract<ConductorEvent, { kind: 'take' }>): void => {
  const touched = scene.choices?.[event.card];
  if (touched === undefined || touched.card.code !== event.code || isTooSoon(stage)) return;
  takeChoice(stage, touched, event.hold);
};

import type { SayCode } from '../codes';
import type { Scene, Stage } from './stage';

/** What was just accepted is heard before the next line is read out, ms. */
const ACCEPTED_LASTS = 900;

export const sayNow = (stage: Stage, code: SayCode, params: Readonly<Record<string, string | number>>): void => {
  stage.memory.say = { id: (stage.memory.say?.id ?? 0) + 1, code, params };
};

export const sayAccepted = (stage: Stage, params: Readonly<Record<string, string | number>>): void => {
  sayNow(stage, 'accepted', params);
  stage.memory.quietUntil = stage.now + ACCEPTED_LASTS;
};

/** Says a scene's words once, however many steps it lasts. */
export const speak = (stage: Stage, scene: Scene): void => {
  const words = scene.say ?? null;
  if (words === null || words.key === stage.memory.said || stage.now < stage.memory.quietUntil) return;
  stage.memory.said = words.key;
  sayNow(stage, words.code, words.params);
};

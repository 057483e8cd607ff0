import type { SceneAct } from '#lib/protocol/intent';
import type { SceneHint } from './hint';

/** Why an act came to nothing. Words are the screen's. */
export type SceneWhy =
  | 'hands-full' // still busy with the last thing
  | 'pan-occupied'
  | 'pan-empty'
  | 'nothing-open' // no line waits for a pour
  | 'nothing-left' // the line has what it needs
  | 'nothing-dry' // no hydroxide stands weighed in its cup
  | 'full' // the scale carries no more: a part has to be taken first
  | 'no-such-scale'
  | 'unplugged' // the figure cannot be seen
  | 'already' // plugged, unplugged, made, leaning
  | 'wait' // nothing to do but wait
  | 'needs-person'; // a question that only a person at the screen answers

export type SceneAnswer = { readonly ok: true; readonly why: null } | { readonly ok: false; readonly why: SceneWhy };

export const DONE: SceneAnswer = { ok: true, why: null };
export const no = (why: SceneWhy): SceneAnswer => ({ ok: false, why });

export type SceneLine = 'main' | 'fine' | 'lye' | 'oils' | 'room';

/** The cables of the scene. */
export interface Cables {
  plugged(line: SceneLine): boolean;
  plug(line: SceneLine): void;
  unplug(line: SceneLine): void;
}

/** The simulated maker. Practice only. */
export interface Scene {
  /** Begins an act; a pour goes on for seconds afterwards. `hint`: what the bench shows now; `null`: what it showed last. */
  act(act: SceneAct, hint: SceneHint | null): SceneAnswer;
  /** At each cue: a pourer eases off when the screen says so. */
  hint(hint: SceneHint): void;
  /** Ids of vessels on a pan with a probe leaning in them. */
  leaning(): readonly string[];
}

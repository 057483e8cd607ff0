import { messages } from './messages';

/** Why the simulated hands could not do it. */
const sceneWhyNot: Readonly<Record<string, string>> = {
  'hands-full': 'The hands are still busy.',
  'pan-occupied': 'Something stands on that pan. Lift it first.',
  'pan-empty': 'Nothing stands on the pan.',
  'nothing-open': 'No line waits for a pour.',
  'nothing-left': 'The line has what it needs.',
  'nothing-dry': 'No hydroxide stands weighed in its cup.',
  full: 'The scale carries no more. Keep this part first.',
  'no-such-scale': 'There is no such scale.',
  unplugged: 'It is unplugged. Plug it in first.',
  already: 'It is so already.',
  wait: 'Nothing to do but wait.',
  'needs-person': 'A person answers this, at the screen.',
  'practice-only': 'Only on the practice bench.',
  'not-yours': messages.refusals['not-yours'],
};
export const sceneRefusal = (why: string): string => sceneWhyNot[why] ?? messages.notices['scene-refused'];

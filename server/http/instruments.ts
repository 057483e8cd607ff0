import { zValidator } from '@hono/zod-validator';
import { Hono } from 'hono';
import type { Context } from 'hono';
import { bindAsk, leavePracticeAsk, unbindAsk } from '#lib/protocol/setup';
import type { InstrumentConfig } from '#lib/measure/instrument';
import { as } from '#lib/units/id';
import type { ApiDeps, SetupAnswer } from './deps';
import { makersOnly, unreadable } from './makers';
import { byOf } from './person';
import { problem } from './problem';

/** GET /api/instruments, GET /api/instruments/:id/raw; a maker binds, unbinds and leaves practice by POST. */
export const instruments = (deps: ApiDeps): Hono =>
  new Hono()
    .get('/', async (c) => c.json(await deps.setup.page()))
    .get('/:id/raw', (c) => {
      const frames = deps.setup.raw(as(c.req.param('id')));
      return frames === null ? problem(c, 404, 'There is no such instrument.', 'Open it from the list of instruments.') : c.json(frames);
    })
    .post('/', makersOnly(deps), zValidator('json', bindAsk, unreadable), async (c) => {
      // The schema's ids and masses are plain; here they become the bench's.
      return answer(c, deps, await deps.setup.bind(c.req.valid('json') as InstrumentConfig, byOf(deps, c)));
    })
    .post('/unbind', makersOnly(deps), zValidator('json', unbindAsk, unreadable), async (c) =>
      answer(c, deps, await deps.setup.unbind(as(c.req.valid('json').id), byOf(deps, c))),
    )
    .post('/leave-practice', makersOnly(deps), zValidator('json', leavePracticeAsk, unreadable), async (c) => {
      const { leave: _leave, ...along } = c.req.valid('json');
      return answer(c, deps, await deps.setup.leavePractice(byOf(deps, c), along));
    });

const answer = async (c: Context, deps: ApiDeps, said: SetupAnswer): Promise<Response> => {
  if (said === 'done') return c.json(await deps.setup.page());
  if (said === 'fixed')
    return problem(
      c,
      409,
      'The command line says what stands on this bench.',
      'Start the program without --scale and --probe to use Setup.',
    );
  if (said === 'port')
    return problem(c, 409, 'Another instrument of this bench has this port.', 'Choose another port, or remove that instrument first.');
  if (said === 'place') return problem(c, 409, 'Another instrument of this bench has this place.', 'Change that one, or remove it first.');
  return problem(c, 404, 'There is nothing of that kind here.', 'Open the list of instruments again.');
};

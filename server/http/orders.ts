import { Hono } from 'hono';
import { as } from '#lib/units/id';
import { inRealm, taskNote, taskTitle } from '#lib/words/agenda';
import { shortMoment } from '#lib/words/times';
import { iCalendar } from '#lib/work/orders/icalendar';
import { systemClock } from '../bench/system';
import { costPage } from '../orders/cost';
import { createForecasts } from '../orders/forecasts';
import { ordersPage, wrapsPage } from '../orders/outlook';
import type { ApiDeps } from './deps';
import { problem } from './problem';

/** GET /api/orders (what is due and what it needs), /cost?bars= (what one bar costs), /wraps (what bars are sold in), /calendar.ics (to subscribe to, RFC 5545). */
export const orders = (deps: ApiDeps): Hono => {
  const forecasts = createForecasts();
  const page = () => {
    const buyers = deps
      .people()
      .people()
      .flatMap(({ id, role, name }) => (role === 'buyer' && name !== null ? [[id, name] as const] : []));
    return ordersPage(deps.running(), new Map(buyers), forecasts, systemClock);
  };
  return new Hono()
    .get('/', async (c) => c.json(await page()))
    .get('/wraps', async (c) => c.json(await wrapsPage(deps.running())))
    .get('/cost', async (c) => {
      const found = await costPage(deps.running(), as(c.req.query('bars') ?? ''));
      return found === undefined
        ? problem(c, 404, 'There are no such bars in this workshop.', 'Open them from the list of bars.')
        : c.json(found);
    })
    .get('/calendar.ics', async (c) => {
      await page();
      await forecasts.settled();
      const { outlook, names } = await page();
      const name = (id: string): string => names[id] ?? id;
      const offsetMin = systemClock.offsetMinutes();
      const say = { day: (one: string) => one, moment: (wall: number) => shortMoment(wall, { offsetMin, locale: 'en-GB' }) };
      const { realm } = deps.running().bench;
      const dues = outlook.agenda.map(({ task, ...when }) => ({
        ...when,
        title: inRealm(realm, taskTitle(task, name)),
        note: taskNote(task, name, say),
      }));
      // A calendar is fetched by a program that shows no bench: no name of a person stands in it.
      c.header('content-type', 'text/calendar; charset=utf-8');
      return c.body(iCalendar(inRealm(realm, 'Potwatch'), dues, systemClock.wall(), 'potwatch'));
    });
};

import { mg } from '#lib/units/mass';
import { mouldContainer } from '#lib/work/batch/pouring/types';
import type { Random } from '../world/random';
import { weighedAs } from './weighed';
import { SCALES } from './recorder';
import type { Recorder } from './recorder';

const EMPTY = { 'short-loaf': 412_000, rounds: 186_000 } as const;
const OTHER_EMPTY = 300_000;

/** Fills every mould of the plan from the pot, each weighed on the big scale, and weighs what stayed behind. */
export const pourMoulds = (recorder: Recorder, random: Random): void => {
  const [{ id: instrument, step }] = SCALES;
  const moulds = recorder.state.plan.moulds ?? [];
  const pot = Object.values(recorder.state.vessels).toSorted((a, b) => b.contents - a.contents)[0];
  if (pot === undefined || moulds.length === 0) return;
  const stays = random.between(6_000, 19_000);
  const planned = moulds.reduce((sum, { mass }) => sum + (mass ?? 0), 0);
  const there = pot.contents - stays;
  for (const { n, mould, mass } of moulds) {
    const rounded = (value: number) => mg(Math.round(value / step) * step);
    const empty = rounded((EMPTY[mould as keyof typeof EMPTY] ?? OTHER_EMPTY) + 40 * random.gauss());
    const container = mouldContainer(n);
    recorder.do('set-container', { container, instrument, gross: empty, episode: recorder.settle(instrument, empty) });
    recorder.wait(1000 * random.between(25, 70));
    const net = rounded(planned === 0 ? there / moulds.length : (there * (mass ?? 0)) / planned);
    const gross = mg(empty + net);
    const weighed = weighedAs(recorder, instrument, { gross, zero: empty, net, step });
    recorder.do('pour-mould', { mould: n, from: ['pot'], mass: net, weighed });
    recorder.empty();
    recorder.wait(9_000);
  }
};

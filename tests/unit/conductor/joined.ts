import { expect } from 'vitest';
import { celsius } from '#lib/units/temperature';
import type { Plan, TraceMark } from '#lib/work/batch/index';
import { dueBeforeJoining } from '#lib/work/batch/order';
import { PRECAUTIONS } from '#lib/work/batch/precautions';
import { lineId, Rig, vesselId } from './rig';

/** Everything due weighed by hand and the lye made: only joining is left. */
export const readyToJoin = (plan: Plan): Rig => {
  const rig = new Rig().start(plan);
  Object.assign(rig.temperatures, { lye: celsius(40), oils: celsius(40) });
  const gate = (gate: 'hydroxide' | 'cold-liquid', line: string | null): void =>
    void rig.send(
      { kind: 'confirm-gate', body: { gate, line: line === null ? null : lineId(line), items: PRECAUTIONS[gate], held: true } },
      'maker',
    );
  gate('hydroxide', 'soda');
  for (const { id, target } of plan.lines.filter(dueBeforeJoining)) {
    const typed = { net: target, text: String(target / 1000), unit: 'g' } as const;
    rig.send({ kind: 'type-weight', body: { line: id, typed, readBack: true, part: false, held: true } }, 'maker');
  }
  gate('cold-liquid', null);
  rig.send({ kind: 'dissolve', body: { vessel: vesselId('soda-cup'), into: vesselId('jug'), held: true } }, 'maker');
  return rig.run(1);
};

/** Joined, and trace marked as it is seen. */
export const joinedAs = (plan: Plan, mark: TraceMark): Rig => {
  const rig = readyToJoin(plan);
  rig.send({ kind: 'join', body: { held: true } }, 'maker');
  rig.send({ kind: 'stamp-trace', body: { mark, note: '' } }, 'maker');
  expect([rig.refusals, rig.state.status, rig.state.open]).toEqual([[], 'joined', null]);
  return rig.run(2);
};

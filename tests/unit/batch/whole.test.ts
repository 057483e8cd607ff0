import { describe, expect, it } from 'vitest';
import { fold } from '#lib/work/batch/index';
import { planOf, started } from '#tests/support/batch';

describe('a whole batch', () => {
  for (const id of ['alder-and-oat', 'meadowsweet', 'slate']) {
    it(`${id} can be weighed, joined, traced and closed by the rules`, () => {
      const rig = started(planOf(id)).weighAll().makeLye().join();
      rig.must('stamp-trace', { mark: 'thin', note: '' });
      rig.must('close', {});
      expect(rig.now.status).toBe('closed');
      for (const { plan, actual, outcome } of Object.values(rig.now.lines)) expect([outcome, actual]).toEqual(['within', plan.target]);
      expect(fold(rig.entries)).toEqual(rig.now);
    });
  }
});

import type { MeetingLane, OutlookLane } from '#lib/protocol/forecast';
import type { Outlook } from '#lib/soap/cooling/types';
import type { Meeting, When } from '#lib/soap/meeting/types';

const thousandths = (celsius: number): number => Math.round(1000 * celsius);

/** An outlook as it crosses to a screen: what the laws were is the server's own. */
export const outlookLane = (outlook: Outlook): OutlookLane => {
  if (outlook.kind === 'none') return outlook;
  const { since, until, setting, ahead } = outlook;
  return {
    kind: 'forecast',
    since: Math.round(since),
    until,
    setting,
    ahead: ahead.map(({ after, low, middle, high }) => [after, thousandths(low), thousandths(middle), thousandths(high)]),
  };
};

export const meetingLane = (meeting: Meeting): MeetingLane => {
  if (meeting.kind === 'none') return meeting;
  const { when, joinable, against, acts, setting } = meeting;
  return {
    kind: 'meeting',
    when: whole(when),
    joinable: whole(joinable),
    against,
    acts: acts.map((act) => ({ ...act, to: thousandths(act.to), start: Math.round(act.start), meets: whole(act.meets) })),
    setting:
      setting === null
        ? null
        : {
            by: setting.by,
            low: Math.floor(setting.in.low),
            middle: Math.round(setting.in.middle),
            high: setting.in.high === null ? null : Math.ceil(setting.in.high),
            warmTo: setting.warmTo === null ? null : thousandths(setting.warmTo),
          },
  };
};

/** Whole seconds, a span never narrowed by it. */
const whole = (when: When): When => {
  if (when.kind === 'in') return { kind: 'in', low: Math.floor(when.low), middle: Math.round(when.middle), high: Math.ceil(when.high) };
  return when.kind === 'not-before' ? { kind: 'not-before', after: Math.floor(when.after) } : when;
};

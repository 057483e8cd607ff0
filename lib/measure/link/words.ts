import type { LinkFailure, LinkStatus, WireFault } from '../instrument';

/** What is the matter and what to do about it, for a person at the bench; the same words on every page, over HTTP and in the doctor. */
export interface Advice {
  readonly said: string;
  readonly todo: string;
}

/** Losses in an hour from which on the cause is the wiring and not chance. Common practice, no source. */
export const MANY_LOSSES = 3;

export const FAILURE_ADVICE: Readonly<Record<LinkFailure, Advice>> = {
  busy: {
    said: 'Another program holds the port.',
    todo: 'Close it: a terminal program, a second copy of this one, or the modem service of this computer. The bench takes the port as soon as it is free.',
  },
  denied: {
    said: 'This user may not open the port.',
    todo: 'Join the group that owns it, once: "sudo usermod -aG dialout $USER" ("plugdev" instead of "dialout" on some systems), then log out and in again. hardware/README.md has a rule that needs no group.',
  },
  missing: {
    said: 'Nothing is plugged in under this name.',
    todo: 'Plug the adapter in, into its own socket if it is bound by socket. The bench takes it as soon as it appears; if it never does, choose the port again in Setup.',
  },
  ambiguous: {
    said: 'This name could mean more than one instrument.',
    todo: 'Choose the port in Setup by its socket (a name under by-path) and leave each adapter in its socket.',
  },
  failed: {
    said: 'The system could not open the port.',
    todo: 'Pull the plug and put it in again. If that does not help, try another socket or cable; the system’s own words stand beside this.',
  },
  lost: {
    said: 'The connection was lost.',
    todo: 'Check plug and cable. It comes back by itself once it is plugged in.',
  },
  silent: {
    said: 'The port is open, but nothing comes.',
    todo: 'Check that the instrument is on and set to send all the time, and that the cable fits: some need a null-modem cable. hardware/README.md says how to tell.',
  },
  stranger: {
    said: 'Something else speaks on this port than belongs there.',
    todo: 'Have two plugs changed places? Change them back. If the instrument’s own output was set otherwise, bind it again in Setup.',
  },
  unreadable: {
    said: 'Bytes come, but they make no sense.',
    todo: 'Speed or parity is probably wrong. Compare them with the instrument’s own menu; 9600 8N1, 2400 7E1 and 1200 7E1 are the usual ones.',
  },
};

/** What a link hears when whole frames come, in a unit that is not weighed in. */
export const OTHER_UNIT = 'hears another unit';

const UNIT: Advice = {
  said: 'It states a unit this bench does not weigh in.',
  todo: 'Set it back to g, kg, oz or lb with its own unit key.',
};

const OFTEN: Advice = {
  said: 'The connection is lost again and again.',
  todo: 'A motor or an induction hob may disturb it: keep the cable away from them, use a short shielded one with a ferrite, and switch USB autosuspend off. See hardware/README.md, "When it drops out".',
};

/** Advice for a link as it stands; `null` when there is nothing to say. Frequent losses are said even while it works. */
export const linkAdvice = ({
  failure,
  lossesLastHour,
  detail,
}: Pick<LinkStatus, 'failure' | 'lossesLastHour' | 'detail'>): Advice | null => {
  const dropsOut = lossesLastHour >= MANY_LOSSES && (failure === null || failure === 'lost' || failure === 'missing');
  if (dropsOut) return OFTEN;
  if (failure === 'unreadable' && detail === OTHER_UNIT) return UNIT;
  return failure === null ? null : FAILURE_ADVICE[failure];
};

/** What each counted fault means. */
export const FAULT_WORDS: Readonly<Record<WireFault, string>> = {
  'too-long': 'no end of a frame in 4,096 bytes: speed or parity is probably wrong',
  'first-partial': 'frames under way while the port was opened, not used',
  'idle-cut': 'frames cut short by silence',
  grammar: 'lines that are no frame of this shape',
  layout: 'frames laid out otherwise than the others: bytes were lost, or the unit was changed at the instrument',
  'unknown-unit': 'frames in a unit this bench does not weigh in',
  checksum: 'frames with a wrong checksum',
  'bad-number': 'frames without a readable number',
  'not-ascii': 'bytes no instrument of this shape sends: speed or parity is probably wrong',
  declined: 'answers that no weight can be stated just now',
  'other-channel': 'lines of a probe for another vessel',
  'stall-discard': 'frames that had waited while the server stood still, not used',
};

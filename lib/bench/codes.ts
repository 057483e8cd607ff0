import type { BatterWrong, Pattern } from '#lib/work/batch/pouring/types';

/**
 * The words the conductor speaks in: keys of messages, never sentences. A screen that keeps its words in a `Record` over these
 * does not compile until every one is written.
 */

/** Cards, with their parameters in `Card.params`. Masses are whole milligrams, temperatures thousandths of a degree. */
export type CardCode =
  // resume, after a restart: what is in the vessel
  | 'resume-as-recorded' // line
  | 'resume-poured-more'
  | 'resume-emptied'
  | 'resume-unsure'
  // over-pour
  | 'carry-on' // over, red (0 or 1)
  | 'cross-out' // over: take it back out and weigh again; both weights show for ever
  | 'stop' // end the batch, every weight kept
  // a way out that wants more of what is in
  | 'stock-enough' // material, mass, count: of so many materials; the way out is taken
  | 'stock-short' // material, mass: worked out again without more of it
  // an accepted weight that shifted
  | 'keep-weight' // was, now
  | 'strike-weight' // was, now
  // a vessel nobody recognises
  | 'it-is-vessel' // vessel, gross; more: than it should weigh, where that would be in no weight
  // a settled weight unlike the last one before the scale was lost
  | 'poured-meanwhile' // was, now
  | 'put-right' // was, now
  // a doubtful weight
  | 'take-weight' // net
  | 'lift-check' // free the vessel, lift it, set it down again
  // more than the scale or the vessel carries
  | 'part-pour' // net
  // back from away with another weight
  | 'return-accept' // was, now
  | 'return-put-right'
  // joining
  | 'dissolve' // into
  | 'over-rating' // peak, rating: never taken, it says what locks hydroxide
  | 'override' // reason, value, limit
  | 'join'
  // after joining
  | 'trace-thin'
  | 'trace-medium'
  | 'trace-thick'
  | 'trace-wrong'
  // the pour is over
  | 'close-batch'
  | 'pour-on';

/** Cards that name a pattern, or what is wrong with the batter; their words are fetched late, and their codes read as words. */
export type PourCardCode = Pattern | BatterWrong | 'to-plain-pour' | 'more-patterns';

/** What a "go on" does where there are no cards. */
export type GoOnCode =
  | 'next-card' // tap steps, hold takes
  | 'confirm-gate' // held, with the precautions shown
  | 'accept' // a doubtful weight, or one whose moment is running
  | 'accept-held' // hydroxide, with the material named
  | 'enough' // held: a short weight is meant
  | 'come-back'
  | 'after-replug' // the scale was lost and shows what it showed before
  | 'unit-noted'
  | 'scale-zeroed' // pan empty and the scale's own zero key pressed
  | 'probe-out'
  | 'take-portion'
  | 'take-pour' // held: the mould, the part, or what stayed behind
  | 'taken-out' // held: so much is out
  | 'left-in' // held: nothing is taken out after all
  | 'done-by-hand' // held: a person says that it is done
  | 'count-from-here'
  | 'close-batch'; // asks first; the card that does it is held

/** Sentences for voice and live region, with their parameters in `Say.params`. */
export type SayCode =
  | 'next-line' // material, target, vessel, scale ('' where it is typed), lot ('' when none)
  | 'same-vessel' // the same for a line that opens on the vessel already standing
  | 'set-down' // vessel, scale
  | 'other-scale' // vessel, scale (the one it belongs on)
  | 'wrong-vessel' // vessel (what stands there), wanted
  | 'strange-vessel' // wanted
  | 'ready' // material, left
  | 'ease-off'
  | 'short' // left
  | 'offer' // material, net
  | 'only-material' // as offer, for lumps and spoonfuls: only the material inside?
  | 'ask' // reason, net
  | 'hold' // material, net
  | 'over' // over, red
  | 'ways-out' // a stated wrong: choose
  | 'stock' // material, mass, count: is there enough?
  | 'take-out' // vessel, mass; mark of the batch that what is set aside becomes
  | 'accepted' // material, net, division of its scale
  | 'lift' // vessel
  | 'question' // was, now; vessel whose weight it is
  | 'blocked' // reason
  | 'gate' // gate
  | 'resume' // vessel
  | 'away'
  | 'returned'
  | 'card' // card (its code) and its parameters
  | 'all-weighed'
  | 'free-the-cable'
  | 'trace' // joined: what is seen of the batter is asked
  | 'trouble' // trouble: what is wrong with the batter, 'which' while nobody has said
  | 'closing' // whether to close
  | 'closed' // mark
  | 'parked' // mark
  | 'stopped' // mark
  | 'portion' // number, net
  | 'poured' // what, net
  | 'pattern'; // mark, mould

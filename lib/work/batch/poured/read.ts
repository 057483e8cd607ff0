import type { Belief, Pot, PotLine } from '#lib/soap/poured/types';
import type { SvBelief } from '#lib/soap/superfat-interval';
import type { LineId, LotId } from '#lib/units/id';
import type { BelievedBasis, BeliefBasis, LineBasis, PouredBasis } from './basis';
import { pouredBasis } from './schema';

const read = new WeakMap<PouredBasis, PouredBasis | null>();

/** What a plan froze, checked once; `null` when it is not what any program of ours wrote: then nothing is worked out from it. */
export const readBasis = (stored: PouredBasis): PouredBasis | null => {
  const known = read.get(stored);
  if (known !== undefined) return known;
  const parsed = pouredBasis.safeParse(stored);
  const sound = parsed.success ? parsed.data : null;
  read.set(stored, sound);
  return sound;
};

/** A frozen text is a number, or the pot is not known. */
const number = (text: string): number => {
  const value = Number(text);
  if (text.trim() === '' || !Number.isFinite(value)) throw new RangeError(`"${text}" is no number`);
  return value;
};

const svBelief = ({ kind, u, low, high }: BelievedBasis): SvBelief => {
  if (kind === 'certificate' || kind === 'profile') return { kind, u: number(u ?? '') };
  return { kind: 'range', low: number(low ?? ''), high: number(high ?? '') };
};

const beliefOf = ({ of, material, name, lot }: BeliefBasis, believed: BelievedBasis): Belief => {
  const head = { material, name, lot, value: number(believed.value) };
  if (of === 'sv') return { ...head, of, belief: svBelief(believed) };
  return { ...head, of, belief: { kind: believed.kind === 'certificate' ? 'certificate' : 'label', u: number(believed.u ?? '') } };
};

/** A line that is to be in the pot: of which material and lot, and by which line of the plan it is known. */
export interface Wanted {
  readonly id: LineId;
  readonly name: string;
  readonly lot: LotId | null;
  readonly basis: LineBasis;
}

/** Beliefs of one pot, each once. */
interface Beliefs {
  readonly all: Belief[];
  readonly at: Map<string, number>;
}

/** The belief of a portion: that of the lot it was computed for, or what is known of the material when another lot was taken. */
const indexOf = (basis: PouredBasis, beliefs: Beliefs, belief: number, otherLot: boolean, lot: LotId | null): number => {
  const frozen = basis.beliefs[belief];
  if (frozen === undefined) throw new RangeError('a belief that was not frozen');
  const certified = otherLot && frozen.kind === 'certificate';
  if (certified && frozen.otherwise === undefined) throw new RangeError(`nothing is known of another lot of ${frozen.name}`);
  const key = otherLot ? `${belief} ${lot ?? ''}` : String(belief);
  const known = beliefs.at.get(key);
  if (known !== undefined) return known;
  beliefs.all.push(beliefOf(frozen, certified ? (frozen.otherwise ?? frozen) : frozen));
  beliefs.at.set(key, beliefs.all.length - 1);
  return beliefs.all.length - 1;
};

const FROZEN = { text: 'as the plan froze it', grade: 'computed' } as const;

const lineOf = (basis: PouredBasis, beliefs: Beliefs, { id, name, lot, basis: frozen }: Wanted): PotLine => {
  const other = lot !== frozen.lot;
  const at = (belief: number): number => indexOf(basis, beliefs, belief, other, lot);
  const valueAt = (belief: number): number => beliefs.all[belief]?.value ?? Number.NaN;
  return {
    id,
    name,
    part: frozen.part,
    inLye: frozen.inLye,
    // The certificate of another lot is another paper.
    limit: frozen.limit === null || other ? null : number(frozen.limit),
    of: {
      fats: frozen.fats.map(({ belief, mass, kind, acidValue, unsaponifiable, density, celsius }) => {
        const believed = at(belief);
        return {
          belief: believed,
          mass: number(mass),
          sv: valueAt(believed),
          kind,
          acidValue: number(acidValue),
          unsaponifiable: number(unsaponifiable),
          density: { value: number(density), celsius: number(celsius), source: FROZEN },
        };
      }),
      alkalis: frozen.alkalis.map(({ belief, mass, kind, restIsWater }) => {
        const believed = at(belief);
        return {
          belief: believed,
          mass: number(mass),
          kind,
          purity: valueAt(believed),
          ...(restIsWater === null ? {} : { restIsWater: number(restIsWater) }),
        };
      }),
      acids: frozen.acids.map(({ mass, strength, molesPerGram, crystalWater }) => ({
        mass: number(mass),
        strength: number(strength),
        molesPerGram: number(molesPerGram),
        crystalWater: number(crystalWater),
      })),
      water: number(frozen.water),
      inert: frozen.inert.map(({ mass, density, u }) => ({
        mass: number(mass),
        density: { value: number(density), u: number(u), source: FROZEN },
      })),
    },
  };
};

/** @throws RangeError where what was frozen does not say enough */
export const potFrom = (basis: PouredBasis, wanted: readonly Wanted[]): Pot => {
  const beliefs: Beliefs = { all: [], at: new Map() };
  const lines = wanted.map((one) => lineOf(basis, beliefs, one));
  const { sizing, limits } = basis;
  const estimate = ({ value, u }: { readonly value: string; readonly u: string }) => ({ value: number(value), u: number(u) });
  return {
    lines,
    beliefs: beliefs.all,
    sizing:
      sizing === null
        ? null
        : {
            pourAt: number(sizing.pourAt),
            residue: number(sizing.residue),
            pourLoss: number(sizing.pourLoss),
            calibration:
              sizing.calibration === null ? null : { factor: number(sizing.calibration.factor), u: number(sizing.calibration.u) },
            brim: sizing.brim === null ? null : estimate(sizing.brim),
          },
    limits: {
      superfat: [number(limits.superfat[0]), number(limits.superfat[1])],
      lye: [number(limits.lye[0]), number(limits.lye[1])],
      shares: Object.fromEntries(limits.shares.map(({ line, low, high }) => [line, [number(low), number(high)]] as const)),
    },
  };
};

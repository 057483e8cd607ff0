'use client';
import { useEffect } from 'react';
import type { ReactNode } from 'react';
import { useStore } from 'zustand';
import type { Card, PortionCue, Say } from '#lib/bench/cue';
import type { BatchState } from '#lib/work/batch/index';
import type { Frame } from '../../_ui/frame';
import { Press } from '../../_ui/press';
import { messages } from '../messages';
import type { Show } from '../messages';
import { createLateParts } from './late-store';
import type { LateSheet } from './late-sheets';
import { SheetFrame } from './sheet';

type Draw = () => ReactNode;

/** Parts that the first frame of a weighing does not need. */
interface Parts {
  readonly cards: Draw;
  readonly byHand: Draw;
  readonly start: Draw;
  readonly howItGoes: Draw;
  readonly lots: Draw;
  readonly ways: Draw;
  readonly whither: Draw;
  /** A sentence as it is read aloud. */
  readonly aloud: (say: Say, cards: readonly Card[], batch: BatchState | null, show: Show) => string;
  readonly sheet: (sheet: LateSheet) => ReactNode;
  readonly portions: Draw;
  /** What to do about the next one. */
  readonly portionAct: (at: PortionCue['at']) => string;
  readonly pot: Draw;
  readonly pourCards: Draw;
  readonly advice: Draw;
  readonly notice: Draw;
  readonly temperatures: (frame: Frame) => ReactNode;
  readonly holds: Draw;
  readonly making: Draw;
  readonly makingCautions: (whole: boolean) => ReactNode;
  readonly strip: Draw;
}

const { store, fetch } = createLateParts<Parts>(
  [
    async () => {
      const { aloud, ByHand, Cards, Ways, Whither } = await import('./late-cards');
      return { cards: () => <Cards />, ways: () => <Ways />, byHand: () => <ByHand />, whither: () => <Whither />, aloud };
    },
    async () => {
      const { HowItGoes, LotChoice, Start } = await import('./late-start');
      return { start: () => <Start />, lots: () => <LotChoice />, howItGoes: () => <HowItGoes /> };
    },
    async () => {
      const { Advice, LateSheets, Notice, portionActs, Portions, PotLine, PourCards } = await import('./late-sheets');
      const pouring = {
        portions: () => <Portions />,
        portionAct: (at: PortionCue['at']) => portionActs[at],
        pourCards: () => <PourCards />,
        advice: () => <Advice />,
      };
      const sheet = { sheet: (name: LateSheet) => <LateSheets sheet={name} />, notice: () => <Notice /> };
      return { ...sheet, pot: () => <PotLine />, ...pouring };
    },
    async () => {
      const { Holds, Making, MakingCautions, PassingTemperatures, Temperatures } = await import('./late-temperatures');
      return {
        temperatures: (frame) => <Temperatures frame={frame} />,
        holds: () => <Holds />,
        making: () => <Making />,
        makingCautions: (whole) => <MakingCautions whole={whole} />,
        strip: () => <PassingTemperatures />,
      };
    },
  ],
  (ms, run) => void setTimeout(run, ms),
);

/**
 * Fetches them right after the page, not when they are shown: then the server may be gone, and a part that comes late would appear
 * under a finger.
 */
export const useLateParts = (): void => useEffect(() => void fetch(), []);

const usePart = <K extends keyof Parts>(name: K): Parts[K] | undefined => useStore(store, (there) => there[name]) as Parts[K] | undefined;

/** In the place of a part that did not come. It is asked for again by itself too. */
function Missing() {
  const { title, teach } = messages.missing;
  return useStore(store, ({ failed }) => failed) ? (
    <Press name={title} sub={teach} onTap={() => void fetch()} data={{ 'data-missing': '' }} />
  ) : null;
}

/** A part that has a place of its own. */
const placed = (
  name: keyof Parts & ('cards' | 'byHand' | 'start' | 'lots' | 'ways' | 'portions' | 'pourCards' | 'advice' | 'holds' | 'making'),
) =>
  function Late() {
    return usePart(name)?.() ?? <Missing />;
  };
/** A part in passing, beside something else: without it nothing stands there. */
const inPassing = (name: keyof Parts & ('howItGoes' | 'pot' | 'notice' | 'strip' | 'whither')) =>
  function Late() {
    return usePart(name)?.() ?? null;
  };

export const LateCards = placed('cards');
export const LateByHand = placed('byHand');
export const LateStart = placed('start');
export const LateLotChoice = placed('lots');
export const LateWays = placed('ways');
export const LatePortions = placed('portions');
export const LatePourCards = placed('pourCards');
export const LateAdvice = placed('advice');
export const LateHolds = placed('holds');
export const LateMaking = placed('making');
export const LateHowItGoes = inPassing('howItGoes');
export const LatePotLine = inPassing('pot');
export const LateWhither = inPassing('whither');
export const LateNotice = inPassing('notice');
export const LatePassingTemperatures = inPassing('strip');

export function LateSheet({ sheet }: { readonly sheet: LateSheet }) {
  const draw = usePart('sheet');
  if (draw !== undefined) return draw(sheet);
  return (
    <SheetFrame title={messages.press.more}>
      <Missing />
    </SheetFrame>
  );
}

export function LateTemperatures({ frame }: { readonly frame: Frame }) {
  return usePart('temperatures')?.(frame) ?? <Missing />;
}

/** Rows of the precautions; without them a row says so. */
export function LateMakingCautions({ whole }: { readonly whole: boolean }) {
  const draw = usePart('makingCautions');
  if (draw !== undefined) return draw(whole);
  return whole ? (
    <li>
      <Missing />
    </li>
  ) : null;
}

/** How a sentence is read aloud; `undefined`: not fetched yet. */
export const useAloud = (): Parts['aloud'] | undefined => usePart('aloud');
/** What to do about the next portion; `undefined`: not fetched yet. */
export const usePortionAct = (): Parts['portionAct'] | undefined => usePart('portionAct');

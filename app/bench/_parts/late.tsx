'use client';
import { useEffect } from 'react';
import type { ReactNode } from 'react';
import { createStore } from 'zustand/vanilla';
import { useStore } from 'zustand';
import type { Card } from '#lib/bench/cue';
import type { BatchState } from '#lib/work/batch/index';
import type { Frame } from '../../_ui/frame';
import type { Show } from '../messages';
import type { LateSheet } from './late-sheets';

/** Parts that the first frame of a weighing does not need; `null` until fetched. */
interface Parts {
  readonly sheet: ((sheet: LateSheet) => ReactNode) | null;
  readonly temperatures: ((frame: Frame) => ReactNode) | null;
  readonly holds: (() => ReactNode) | null;
  readonly making: ((short: boolean) => ReactNode) | null;
  readonly strip: (() => ReactNode) | null;
  readonly portions: (() => ReactNode) | null;
  readonly pot: (() => ReactNode) | null;
  readonly pourCards: (() => ReactNode) | null;
  readonly advice: (() => ReactNode) | null;
  readonly start: (() => ReactNode) | null;
  readonly lots: (() => ReactNode) | null;
  readonly ways: Ways | null;
  readonly notice: (() => ReactNode) | null;
}

interface Ways {
  readonly draw: () => ReactNode;
  /** A card as it is read aloud. */
  readonly text: (card: Card, batch: BatchState | null, show: Show) => string;
}

const parts = createStore<Parts>(() => ({
  sheet: null,
  temperatures: null,
  holds: null,
  making: null,
  strip: null,
  portions: null,
  pot: null,
  pourCards: null,
  advice: null,
  start: null,
  lots: null,
  ways: null,
  notice: null,
}));

const fetchParts = async (): Promise<void> => {
  const { LotChoice, Start } = await import('./start');
  parts.setState({ start: () => <Start />, lots: () => <LotChoice /> });
  const { Ways, wayText } = await import('./ways');
  parts.setState({ ways: { draw: () => <Ways />, text: wayText } });
  const { Advice, LateSheets, Notice, Portions, PotLine, PourCards } = await import('./late-sheets');
  parts.setState({ notice: () => <Notice />, pourCards: () => <PourCards />, advice: () => <Advice /> });
  parts.setState({ sheet: (sheet) => <LateSheets sheet={sheet} />, portions: () => <Portions />, pot: () => <PotLine /> });
  const { Holds, Making, PassingTemperatures, Temperatures } = await import('./late-temperatures');
  parts.setState({
    temperatures: (frame) => <Temperatures frame={frame} />,
    holds: () => <Holds />,
    making: (short) => <Making short={short} />,
    strip: () => <PassingTemperatures />,
  });
};

/**
 * Fetches them right after the page, not when they are shown: then the server may be gone, and a part that comes late would appear
 * under a finger.
 */
export const useLateParts = (): void => useEffect(() => void fetchParts(), []);

export function LateSheet({ sheet }: { readonly sheet: LateSheet }) {
  return useStore(parts, (there) => there.sheet)?.(sheet) ?? null;
}

export function LateTemperatures({ frame }: { readonly frame: Frame }) {
  return useStore(parts, (there) => there.temperatures)?.(frame) ?? null;
}

export function LateHolds() {
  return useStore(parts, (there) => there.holds)?.() ?? null;
}

export function LateMaking({ short = false }: { readonly short?: boolean }) {
  return useStore(parts, (there) => there.making)?.(short) ?? null;
}

export function LatePassingTemperatures() {
  return useStore(parts, (there) => there.strip)?.() ?? null;
}

export function LateLotChoice() {
  return useStore(parts, (there) => there.lots)?.() ?? null;
}

export function LatePortions() {
  return useStore(parts, (there) => there.portions)?.() ?? null;
}

export function LateWays() {
  return useStore(parts, (there) => there.ways)?.draw() ?? null;
}

/** `null`: not fetched yet. */
export const lateWayText = (...of: Parameters<Ways['text']>): string | null => parts.getState().ways?.text(...of) ?? null;

export function LatePotLine() {
  return useStore(parts, (there) => there.pot)?.() ?? null;
}

export function LatePourCards() {
  return useStore(parts, (there) => there.pourCards)?.() ?? null;
}

export function LateAdvice() {
  return useStore(parts, (there) => there.advice)?.() ?? null;
}

export function LateNotice() {
  return useStore(parts, (there) => there.notice)?.() ?? null;
}

export function LateStart() {
  return useStore(parts, (there) => there.start)?.() ?? null;
}

'use client';
import type { ReactNode } from 'react';
import type { Sheet } from './controls';
import { CorrectSheet } from './correct';
import { EndingSheet } from './ending';
import { KeypadSheet } from './keypad';
import { More } from './more';
import { MoveSheet } from './move';
import { PairSheet } from './pair';
import { SceneSheet } from './scene';
import { SettingsSheet } from './settings';

export type LateSheet = Exclude<Sheet, 'none' | 'first-aid'>;

const SHEETS: Readonly<Record<LateSheet, () => ReactNode>> = {
  more: () => <More />,
  keypad: () => <KeypadSheet />,
  correct: () => <CorrectSheet />,
  move: () => <MoveSheet />,
  park: () => <EndingSheet how="park" />,
  abandon: () => <EndingSheet how="abandon" />,
  close: () => <EndingSheet how="close" />,
  settings: () => <SettingsSheet />,
  scene: () => <SceneSheet />,
  pair: () => <PairSheet />,
};

export function LateSheets({ sheet }: { readonly sheet: LateSheet }) {
  return SHEETS[sheet]();
}

'use client';
import type { ReactNode } from 'react';
import type { Sheet } from './controls';
import { CorrectSheet } from './correct';
import { EndingSheet } from './ending';
import { KeypadSheet } from './keypad';
import { LoseSheet } from './lose';
import { More } from './more';
import { LotSheet } from './lot-sheet';
import { MoveSheet } from './move';
import { PairSheet } from './pair';
import { PeopleSheet } from './people';
import { PotSheet } from './pot-sheet';
import { PourSheet } from './pour-sheet';
import { SceneSheet } from './scene';
import { SettingsSheet } from './settings';
import { WrongSheet } from './wrong';

export { Notice } from './notice';
export { Advice, PourCards } from './pour-cards';
export { Portions } from './portions';
export { portionActs } from '../messages-pour';
export { PotLine } from './pot-line';
export type LateSheet = Exclude<Sheet, 'none' | 'first-aid'>;

const SHEETS: Readonly<Record<LateSheet, () => ReactNode>> = {
  more: () => <More />,
  keypad: () => <KeypadSheet />,
  correct: () => <CorrectSheet />,
  move: () => <MoveSheet />,
  lose: () => <LoseSheet />,
  wrong: () => <WrongSheet />,
  park: () => <EndingSheet how="park" />,
  abandon: () => <EndingSheet how="abandon" />,
  close: () => <EndingSheet how="close" />,
  settings: () => <SettingsSheet />,
  scene: () => <SceneSheet />,
  pair: () => <PairSheet />,
  people: () => <PeopleSheet />,
  lot: () => <LotSheet />,
  pot: () => <PotSheet />,
  pour: () => <PourSheet />,
};

export function LateSheets({ sheet }: { readonly sheet: LateSheet }) {
  return SHEETS[sheet]();
}

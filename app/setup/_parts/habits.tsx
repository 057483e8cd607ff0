'use client';
import type { Habits } from '#lib/work/shelf/documents';
import { SingleDocument } from '../../_ui/kept/single';
import type { Single } from '../../_ui/kept/single';
import { workshop } from '../messages-workshop';
import { habitSpecs, readHabits, saidHabits, typedHabits } from './habits-form';

const { habits: words } = workshop;

const HABITS: Single<Habits> = {
  noun: 'habits',
  title: words.title,
  note: <p>{words.note}</p>,
  kept: words.kept,
  specs: habitSpecs,
  typedOf: typedHabits,
  read: readHabits,
  saidOf: saidHabits,
};

/** How this maker works: one document, and its versions. */
export function HabitsSection() {
  return <SingleDocument single={HABITS} />;
}

'use client';
import type { PeoplePage } from '#lib/protocol/people';
import { peopleApi } from '../../_ui/people-api';
import { useAsked } from '../../_ui/use-asked';

export type Person = PeoplePage['people'][number];

/** Buyers, those whose name was erased among them; none while they are asked for. */
export const useBuyers = (): readonly Person[] => {
  const { asked } = useAsked(peopleApi.list);
  return asked.state === 'there' ? asked.value.people.filter(({ role }) => role === 'buyer') : [];
};

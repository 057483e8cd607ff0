import type { PersonId } from '#lib/units/id';
import type { People } from '../store/people';

/**
 * The people of the workshop, and while practice runs the invented ones of its record beside them. Who is added is added to the real
 * workshop; who is renamed or erased, where they stand.
 */
export const withPractice = (real: People, practice: () => People | null): People => {
  const of = (person: PersonId): People => {
    const there = practice();
    return there !== null && there.people().some(({ id }) => id === person) ? there : real;
  };
  return {
    addPerson: (...asked) => real.addPerson(...asked),
    renamePerson: (person, ...asked) => of(person).renamePerson(person, ...asked),
    eraseName: (person, ...asked) => of(person).eraseName(person, ...asked),
    setPin: (person, ...asked) => of(person).setPin(person, ...asked),
    pinOf: (person) => of(person).pinOf(person),
    people: () => [...real.people(), ...(practice()?.people() ?? [])],
  };
};

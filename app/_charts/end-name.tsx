import { onPaper } from '../_ui/classes';

const on = onPaper();

/** Lines end here, in per cent of the picture; to their right stand their names. */
export const END = 84;
const APART = 16;

/** The places of names at the ends of lines, each with room for the others: those above `middle` go up, those below it down. */
export const apartFrom = (middle: number, places: readonly number[]): readonly number[] =>
  places.map((place) => (place === middle ? place : place < middle ? Math.min(place, middle - APART) : Math.max(place, middle + APART)));

interface Props {
  readonly y: number;
  /** With what it is; `value` alone where there is no room for it. */
  readonly name: string;
  readonly value: string;
  readonly quiet: boolean;
}

/** The name of a line, at its end. */
export function EndName({ y, name, value, quiet }: Props) {
  const shade = quiet ? ' quiet' : '';
  return (
    <>
      <text className={on(`roomy${shade}`)} x={`${END}%`} dx={10} y={y + 4.5}>
        {name}
      </text>
      <text className={on(`narrow${shade}`)} x={`${END}%`} dx={6} y={y + 4.5} aria-hidden="true">
        {value}
      </text>
    </>
  );
}

'use client';
import { useId, useState } from 'react';
import { mouldVolume } from '#lib/work/formula/index';
import type { Mould } from '#lib/work/formula/index';
import { figure, figureNumber } from '#lib/units/format';
import { useDisplay } from '../../_live/use';
import { Worked } from '../../_ui/figures';
import { workshop } from '../messages-workshop';
import { on } from './classes';

const { moulds: words } = workshop;

/** What a mould holds, worked out; opens to its workings. Nothing while it cannot be said. */
export function MouldVolume({ mould }: { readonly mould: Mould }) {
  const [open, setOpen] = useState(false);
  const id = useId();
  const { locale } = useDisplay();
  const volume = mouldVolume(mould);
  if (volume === null) return null;
  const number = (value: number): string => figureNumber(figure(value, 0, '', locale));
  return (
    <>
      <Worked open={open} onOpen={() => setOpen(!open)} controls={id}>
        {words.volume(number(volume.value), number(2 * volume.u))}
      </Worked>
      {open ? (
        <p id={id} className={on('dim')}>
          {workingsOf(mould)}
        </p>
      ) : null}
    </>
  );
}

const RULER = '0.5';

const workingsOf = ({ shape, lengthU }: Mould): string => {
  const { workings } = words;
  if (shape.kind === 'water-fill') return `${workings.water(`${shape.water} ${shape.unit}`, shape.celsius)}${workings.fill}`;
  const one = shape.kind === 'tray' ? shape.cavity : shape;
  const text = one.kind === 'box' ? workings.box(one.length, one.width, one.depth) : workings.cylinder(one.diameter, one.length);
  return `${shape.kind === 'tray' ? workings.tray(shape.cavities, text) : text}${workings.u(lengthU ?? RULER)}`;
};

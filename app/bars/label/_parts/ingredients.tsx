import type { LabelPage } from '#lib/protocol/label';
import { sourceLine } from '#lib/soap/source';
import { numberText } from '#lib/units/format';
import { massCell, massHead, placesOf } from '#lib/words/quantities';
import { ORDER_SOURCE } from '#lib/work/label/ingredients';
import { useDisplay } from '../../../_live/use';
import { on } from '../../../_ui/classes';
import { Digits, Measured } from '../../../_ui/figures';
import { Head } from '../../../_ui/head';
import { PaperSection } from '../../../_ui/section';
import { messages } from '../messages';
import { namesIn } from './named';

/** Masses stand to a hundredth of a gram, mg. */
const STEP = 10;

/** The list as it stands on the label, each name with what was weighed in. */
export function Ingredients({ label }: { readonly label: LabelPage }) {
  const display = useDisplay();
  const { ingredients: words } = messages;
  const { items, unnamed, leftOut } = label.list;
  const proposed = label.materials.filter((one) => one.proposed).map(({ id }) => id);
  const said = [
    words.from[label.from],
    ...(unnamed.length === 0 ? [] : [words.unnamed(namesIn(label, unnamed))]),
    ...(proposed.length === 0 ? [] : [words.proposed(namesIn(label, proposed))]),
    ...(leftOut.length === 0 ? [] : [words.leftOut(namesIn(label, leftOut))]),
    ...(label.settings.naming === 'as-soap' && label.bound !== true ? [words.notBound] : []),
  ];
  return (
    <PaperSection
      name={words.title}
      note={
        <>
          <p>{words.note}</p>
          <p>{sourceLine(ORDER_SOURCE)}</p>
        </>
      }
    >
      {items.length === 0 ? (
        <p>{words.none}</p>
      ) : (
        <table className={on('table')}>
          <thead>
            <tr>
              <Head name={words.heads.name} />
              <Head name={words.heads.mass} unit={massHead(display)} n />
              <Head name={words.heads.share} unit="%" n />
              <Head name={words.heads.group} wide />
            </tr>
          </thead>
          <tbody>
            {items.map(({ name, mass, share, group }) => (
              <tr key={name}>
                <td>{name}</td>
                <td className={on('n')}>
                  <Measured>
                    <Digits cell={massCell(mass, STEP, display, placesOf([STEP], display))} />
                  </Measured>
                </td>
                <td className={on('n')}>{numberText(100 * share, display.locale, 2)}</td>
                <td className={on('wide')}>{words.groups[group]}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {said.map((one) => (
        <p key={one} className={on('gap')}>
          {one}
        </p>
      ))}
    </PaperSection>
  );
}

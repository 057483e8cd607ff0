import type { LabelPage } from '#lib/protocol/label';
import { numberText } from '#lib/units/format';
import { useDisplay } from '../../../_live/use';
import { on } from '../../../_ui/classes';
import { Head } from '../../../_ui/head';
import { PaperSection } from '../../../_ui/section';
import { messages } from '../messages';
import { namesIn } from './named';

/** Every allergen of the certificates, named or not. */
export function Allergens({ label }: { readonly label: LabelPage }) {
  const { locale } = useDisplay();
  const { allergens: words } = messages;
  const { allergens, notAlike, silent } = label;
  const said = [
    ...(notAlike.length === 0 || allergens.length === 0 ? [] : [words.highest(notAlike.map((one) => words.notAlike[one]))]),
    ...(silent.length === 0 ? [] : [words.silent(namesIn(label, silent))]),
  ];
  return (
    <PaperSection name={words.title} note={<p>{words.note}</p>}>
      {allergens.length === 0 ? (
        <p>{words.none}</p>
      ) : (
        <table className={on('table')}>
          <thead>
            <tr>
              <Head name={words.heads.name} />
              <Head name={words.heads.share} unit="%" n />
              <Head name={words.heads.named} />
            </tr>
          </thead>
          <tbody>
            {allergens.map(({ name, share, declared }) => (
              <tr key={name}>
                <td>{name}</td>
                <td className={on('n')}>{numberText(100 * share, locale, 4)}</td>
                <td>{declared ? words.named : words.not}</td>
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

import type { LabelPage } from '#lib/protocol/label';
import { numberText } from '#lib/units/format';
import { useDisplay } from '../../../_live/use';
import { on } from '../../../_ui/classes';
import { Head } from '../../../_ui/head';
import { PaperSection } from '../../../_ui/section';
import { messages } from '../messages';

/** Every allergen of the certificates, named or not. */
export function Allergens({ label }: { readonly label: LabelPage }) {
  const { locale } = useDisplay();
  const { allergens: words } = messages;
  return (
    <PaperSection name={words.title} note={<p>{words.note}</p>}>
      {label.allergens.length === 0 ? (
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
            {label.allergens.map(({ name, share, declared }) => (
              <tr key={name}>
                <td>{name}</td>
                <td className={on('n')}>{numberText(100 * share, locale, 4)}</td>
                <td>{declared ? words.named : words.not}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </PaperSection>
  );
}

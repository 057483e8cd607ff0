'use client';
import { TemperatureColumns } from '../../_charts/temperature-columns';
import type { TEMPERATURE_GLASS } from '../../_charts/temperature-shape';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { messages } from '../messages';
import { COMMON } from './common';

/** Once joined there is one temperature, and no difference to allow. */
export function Temperatures({ frame }: { readonly frame: keyof typeof TEMPERATURE_GLASS }) {
  const display = useDisplay();
  const lye = useLive(see.lye)?.value ?? null;
  const oils = useLive(see.oils)?.value ?? null;
  const joining = useLive(see.batch)?.plan.joining ?? COMMON;
  const joined = useLive(({ batch }) => batch?.joined != null);
  return (
    <TemperatureColumns
      frame={frame}
      lye={lye}
      oils={oils}
      window={joining.window}
      allowedApart={joined ? null : joining.allowedApart}
      display={display}
      words={messages.temperatures}
    />
  );
}

'use client';
import { useState } from 'react';
import type { SceneAct } from '#lib/protocol/intent';
import { see } from '../../_live/selectors';
import { live, useLive } from '../../_live/use';
import { Press } from '../../_ui/press';
import { sheetMessages } from '../messages-sheets';
import { SheetFrame, SheetGrid } from './sheet';

const play = (act: SceneAct) => (): void => void live().scene(act);

type Cable = Extract<SceneAct, { act: 'unplug' }>['what'];
const CABLES: readonly Cable[] = ['main', 'fine', 'lye', 'oils', 'room'];

/** Moves the simulated hands, jugs and cables. Only on the practice bench. */
export function SceneSheet() {
  const vessel = useLive(see.vessel);
  const [cables, setCables] = useState<'unplug' | 'plug' | null>(null);
  const { acts, what, times, title, teach, which } = sheetMessages.scene;
  if (cables !== null)
    return (
      <SheetFrame key="cables" title={acts[cables]} teach={which}>
        <SheetGrid>
          {CABLES.map((cable) => (
            <Press key={cable} name={what[cable]} onTap={() => (play({ act: cables, what: cable })(), setCables(null))} />
          ))}
        </SheetGrid>
      </SheetFrame>
    );
  return (
    <SheetFrame key="acts" title={title} teach={teach}>
      <SheetGrid columns={3}>
        <Press name={acts.help} onTap={play({ act: 'help' })} loud />
        <Press
          name={acts['set-down']}
          sub={vessel?.plan.name}
          onTap={vessel === null ? undefined : play({ act: 'set-down', vessel: vessel.plan.id })}
        />
        <Press name={acts.lift} onTap={play({ act: 'lift' })} />
        <Press name={acts.pour} onTap={play({ act: 'pour', aim: null })} />
        <Press name={acts['over-pour']} onTap={play({ act: 'over-pour' })} />
        <Press name={acts.splash} onTap={play({ act: 'splash' })} />
        <Press name={acts['lean-probe']} onTap={play({ act: 'lean-probe' })} />
        <Press name={acts.unplug} onTap={() => setCables('unplug')} />
        <Press name={acts.plug} onTap={() => setCables('plug')} />
        <Press name={acts['make-lye']} onTap={play({ act: 'make-lye' })} />
        <Press name={acts.cool} sub={what.lye} onTap={play({ act: 'cool', what: 'lye' })} />
        <Press name={acts.warm} sub={what.oils} onTap={play({ act: 'warm', what: 'oils' })} />
        <Press name={acts.hurry} sub={times(1)} onTap={play({ act: 'hurry', times: 1 })} />
        <Press name={acts.hurry} sub={times(20)} onTap={play({ act: 'hurry', times: 20 })} />
      </SheetGrid>
    </SheetFrame>
  );
}

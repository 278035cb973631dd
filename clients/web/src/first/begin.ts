// The first records of a notebook.
import type { Desk } from '../desk.svelte';
import type { Draft } from '../device/device';
import { VesselKind } from '../gen/freshet/v1/vessel_pb';
import { kept } from '../stream/answers';

export interface Plan {
  kind: VesselKind;
  name: string;
  volumeL: number;
}

/** Makes the site, its loop and its vessels, each leading to the next, and a bed where plants stand; says whether they could be kept. */
export async function begin(desk: Desk, name: string, plans: readonly Plan[]): Promise<boolean> {
  const fill = (d: Draft): void =>
    d.together(() => {
      const siteId = d.make('site', { name, timeZone: Intl.DateTimeFormat().resolvedOptions().timeZone });
      const systemId = d.make('system', { name: desk.say.cap(desk.t.shell.loop) }, siteId);
      let next: string[] = [];
      for (const plan of [...plans].reverse()) {
        const id = d.make('vessel', { systemId, name: plan.name, kind: plan.kind, volumeL: plan.volumeL, flowsTo: next }, siteId);
        next = [id];
      }
    });
  return kept(desk, () => desk.device.enter(fill));
}

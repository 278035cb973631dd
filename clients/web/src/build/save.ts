// From a filled form to entries.
import type { Desk } from '../desk.svelte';
import type { FieldsOf } from '../device/kinds';
import type { Recorded } from '../device/view';
import { BedKind } from '../gen/freshet/v1/bed_pb';
import { noted } from '../stream/answers';
import type { Built } from './fields';

export type Values = Record<string, string | number | boolean | undefined>;

/** Makes a record, or sets fields of one; gives its id, empty where it could not be kept. */
export async function save(desk: Desk, kind: Built, values: Values, existing: Recorded | undefined): Promise<string> {
  const { after, ...fields } = values;
  let id = existing?.id ?? '';
  const previous = typeof after === 'string' && !existing ? await desk.device.once((view) => view.record('vessel', after)) : undefined;
  const kept = await noted(desk, String(values['name'] ?? desk.t.build.kind[kind]), (d, siteId) => {
    if (existing) return d.set(existing as Recorded<Built>, fields as FieldsOf<Built>);
    d.together(() => {
      id = d.make(kind, { ...fields, ...whole(desk, kind, values), ...(previous && { flowsTo: previous.value.flowsTo }) } as FieldsOf<Built>, siteId);
      if (previous) d.set(previous, { flowsTo: [id] });
    });
  });
  return kept ? id : '';
}

/** What a new record needs beyond what the form asks. */
function whole(desk: Desk, kind: Built, values: Values): Values {
  const loop = desk.book?.loops.find((l) => l.vessels.some((v) => v.id === (values['vesselId'] || values['after']))) ?? desk.book?.loops[0];
  const soil = [BedKind.SOIL, BedKind.POT, BedKind.TRAY].includes(values['kind'] as BedKind) || values['vesselId'] === '';
  if (kind === 'vessel' || kind === 'cohort' || kind === 'equipment') return { systemId: loop?.system.id };
  return kind === 'bed' && !soil ? { systemId: loop?.system.id } : {};
}

/** Takes a record away; water that ran into a vessel runs on to where that one led. False where that could not be kept. */
export async function takeAway(desk: Desk, record: Recorded): Promise<boolean> {
  const before = record.kind === 'vessel' ? (await desk.device.once((view) => view.records('vessel', record.siteId))).filter((v) => v.value.flowsTo.includes(record.id)) : [];
  return noted(desk, desk.t.build.gone((record.value as { name?: string }).name ?? ''), (d) =>
    d.together(() => {
      for (const v of before) d.set(v, { flowsTo: [...new Set(v.value.flowsTo.flatMap((to) => (to === record.id ? (record as Recorded<'vessel'>).value.flowsTo : [to])))] });
      d.remove(record);
    }),
  );
}

// Takes a history's steps in a browser, at the server's own origin.
import { fromBinary, fromJson, toBinary, type JsonObject, type JsonValue, type Message } from '@bufbuild/protobuf';
import { reflect } from '@bufbuild/protobuf/reflect';
import { timestampFromMs, timestampMs } from '@bufbuild/protobuf/wkt';

import type { Draft } from '../../src/device/draft';
import { bytesOf } from '../../src/device/ids';
import { recordField, recordKinds, type FieldsOf, type RecordKind } from '../../src/device/kinds';
import type { Recorded } from '../../src/device/view';
import { EditSchema, EventSchema, type Event } from '../../src/gen/freshet/v1/change_pb';
import { Role } from '../../src/gen/freshet/v1/account_service_pb';
import { over, readHistory, span, type Sight, type Step } from './history';
import { began, Party } from './party';
import { sees } from './sight';

/** What the host answers to a step. */
export interface Hosted {
  code?: string;
  http: string;
  now_ms: number;
  error?: string;
}

export class Player {
  readonly ids = new Map<string, string>();
  /** By label, as it was entered. */
  readonly noted = new Map<string, Event>();
  readonly parties = new Map<string, Party>();
  /** What was otherwise than the history says. */
  readonly wrong: string[] = [];
  private nowMs = began;
  private code = '';
  private speaking: Party | undefined;

  constructor(private readonly name: string, private readonly host: (step: object) => Promise<Hosted>) {
    // One step is taken at a time: what is fetched meanwhile is its device's.
    const plain = fetch.bind(globalThis);
    globalThis.fetch = (input, init) => (this.speaking ? this.speaking.network.fetch(plain, input, init) : plain(input, init));
  }

  /** Plays a history, given as texts with what each begins with, and gives what was otherwise than it says. */
  async play(ground: string, history: string, code: string): Promise<string[]> {
    this.code = code;
    const [before, then] = [readHistory(ground), readHistory(history)];
    for (const step of [...before.steps, ...then.steps]) await this.take(step);
    await this.end(before.ends, then.ends);
    for (const party of this.parties.values()) party.close();
    return this.wrong;
  }

  private async take(s: Step): Promise<void> {
    try {
      await this.step(s);
    } catch (error) {
      throw new Error(`${JSON.stringify(s)}: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
    }
  }

  private async step(s: Step): Promise<void> {
    if (s.server || s.wait) return this.hosted(s);
    const name = s.join ?? s.note ?? s.set ?? s.remove ?? s.together ?? s.sync ?? s.network ?? s.clock ?? s.restart ?? s.look;
    if (s.role) return this.role(s);
    if (s.revoke) return this.revoke(s);
    if (!name) throw new Error('no such step');
    const d = this.of(name);
    if (s.join) return this.join(d, s);
    if (s.sync) return this.sync(d, s.fails ?? '');
    if (s.network) return d.network.set(s);
    if (s.clock) return d.setClock(s);
    if (s.restart) return d.restart();
    if (s.look) return sees(this, d, s.sees ?? {});
    await this.enter(d, s);
  }

  private async hosted(s: Step): Promise<void> {
    const { now_ms, error } = await this.host(s);
    this.nowMs = now_ms;
    if (error) throw new Error(error);
  }

  now(): number {
    return this.nowMs;
  }

  /** A device, made at its first mention. */
  private of(name: string): Party {
    const d = this.parties.get(name) ?? new Party(name, this.name, () => this.nowMs);
    this.parties.set(name, d);
    this.speaking = d;
    return d;
  }

  private async join(d: Party, s: Step): Promise<void> {
    let code = this.code;
    if (s.by) code = (await this.of(s.by).ask((calls) => calls.account.createInvitation({ role: roleOf(s), siteIds: this.sitesOf(s) }))).code;
    this.of(d.name);
    await d.join(code, s.install);
  }

  /** Helpers and probes are at the ground's site. */
  private sitesOf(s: Step): string[] {
    return s.is === 'helper' || s.is === 'sensor' ? [this.idOf('site')] : [];
  }

  private async role(s: Step): Promise<void> {
    const memberId = await this.of(s.role!).memberId();
    await this.of(s.by!).ask((calls) => calls.account.setRole({ memberId, role: roleOf(s), siteIds: this.sitesOf(s) }));
  }

  private async revoke(s: Step): Promise<void> {
    const memberId = await this.of(s.revoke!).memberId();
    await this.of(s.by!).ask(async ({ account }) => {
      const { devices } = await account.listDevices({ allMembers: true });
      for (const { deviceId, memberId: of, name } of devices) if (of === memberId && name === s.revoke) await account.revokeDevice({ deviceId });
    });
  }

  /** Syncs until it is caught up, or fails as the step says. */
  private async sync(d: Party, fails: string): Promise<void> {
    const ended = await d.sync();
    const waiting = await d.waiting();
    if (ended !== fails) this.wrong.push(`${d.name}: a sync ended with "${ended}", wanted "${fails}"`);
    else if (fails === '' && waiting > 0) this.wrong.push(`${d.name}: ${waiting} wait after a sync`);
  }

  private async enter(d: Party, s: Step): Promise<void> {
    const view = await d.read();
    const records = (await Promise.all(recordKinds.map((kind) => view.records(kind)))).flat();
    const labels: string[] = [];
    const first = await d.enter((draft) => {
      const one = (e: Step): void => this.draft(draft, e, records, labels);
      if (s.together) draft.together(() => s.entries!.forEach(one));
      else one(s);
    });
    labels.forEach((label, i) => d.numbers.set(first + i, label));
  }

  private draft(draft: Draft, s: Step, records: readonly Recorded[], labels: string[]): void {
    if (s.event) {
      for (let n = 0; n < (s.times ?? 1); n++) labels.push(this.note(draft, s, n));
      return;
    }
    labels.push(s.as ?? '');
    if (s.edit) this.edit(draft, s);
    else draft.remove(records.find((r) => r.id === this.idOf(s.record!))!);
  }

  private note(draft: Draft, s: Step, n: number): string {
    const event = this.event(s.event!, this.nowMs);
    if (s.times) event.occurredAt = timestampFromMs(timestampMs(event.occurredAt!) + n * span(s.every!));
    const whole = fromBinary(EventSchema, new Uint8Array([...toBinary(EventSchema, event), ...bytesOf(s.more ?? '')]));
    const label = s.times ? `${s.as}${n + 1}` : s.as!;
    this.ids.set(label, draft.noteWhole(whole));
    this.noted.set(label, whole);
    return label;
  }

  /** An event as a history writes it. */
  event(json: JsonObject, atMs: number): Event {
    const event = fromJson(EventSchema, this.named(json));
    event.siteId ||= this.ids.get('site') ?? '';
    event.occurredAt ??= timestampFromMs(atMs);
    return event;
  }

  private edit(draft: Draft, s: Step): void {
    const edit = fromJson(EditSchema, this.named(s.edit!));
    const kind = edit.record.case!;
    const { message } = recordField(kind);
    const given = reflect(message, edit.record.value as Message);
    const fields = Object.fromEntries((edit.fields?.paths ?? []).map((path) => {
      const field = message.fields.find((f) => f.name === path)!;
      return [field.localName, given.isSet(field) ? (edit.record.value as unknown as Record<string, unknown>)[field.localName] : undefined];
    })) as FieldsOf<RecordKind>;
    const siteId = edit.siteId || (kind === 'member' ? '' : (this.ids.get('site') ?? ''));
    if (edit.recordId) draft.set({ id: edit.recordId, kind, siteId } as Recorded, fields);
    else this.ids.set(s.as!, draft.make(kind, fields, siteId));
  }

  /** Puts ids in the place of "$label". */
  named(json: JsonValue): JsonValue {
    return JSON.parse(JSON.stringify(json).replace(/"\$([a-z][a-z0-9_]*)"/g, (_, label: string) => `"${this.idOf(label)}"`)) as JsonValue;
  }

  idOf(label: string): string {
    const id = this.ids.get(label);
    if (id === undefined) throw new Error(`$${label} is not known yet`);
    return id;
  }

  private async end(ground: Record<string, Sight>, ends: Record<string, Sight>): Promise<void> {
    const all = over(ends['all'] ?? {}, ground['all'] ?? {});
    await this.take({ join: 'last', by: 'ana' });
    const names = [...this.parties.keys()].sort();
    for (const _ of [1, 2]) for (const name of names) if (!ends[name]?.entries) await this.take({ sync: name });
    for (const name of names) await this.take({ look: name, sees: over(ends[name] ?? {}, all) });
  }
}

function roleOf(s: Step): Role {
  return s.is ? Role[s.is.toUpperCase() as keyof typeof Role] : Role.UNSPECIFIED;
}

Object.assign(globalThis, { Player });

import { Code, ConnectError } from '@connectrpc/connect';
import { BinaryReader, WireType } from '@bufbuild/protobuf/wire';

import type { Trouble } from './facts';

/** An error that a person can be told. */
export class TroubleError extends Error implements Trouble {
  readonly words: string;
  readonly reason: string;
  readonly field: string;
  readonly hint: string;
  readonly noSignal: boolean;
  /** The server's clock, where the reason is about clocks; else 0. */
  readonly serverMs: number;
  /** How long the server asks to be left alone, milliseconds; 0 where it does not say. */
  readonly afterMs: number;

  constructor(trouble: Partial<Trouble> & { words: string; serverMs?: number; afterMs?: number }, cause?: unknown) {
    super(trouble.words, { cause });
    ({ words: this.words, reason: this.reason = '', field: this.field = '', hint: this.hint = '', noSignal: this.noSignal = false, serverMs: this.serverMs = 0, afterMs: this.afterMs = 0 } = trouble);
  }

  /** What can be kept in the database. */
  plain(): Trouble {
    const { words, reason, field, hint, noSignal } = this;
    return { words, reason, field, hint, noSignal };
  }
}

/**
 * Turns what a call threw into words. Only an answer that carries a reason of
 * ours is the cooperative's: a sign-in page of some network, a proxy's error and
 * half an answer are all no signal, whatever number they carry.
 */
export function understand(error: unknown): TroubleError {
  if (error instanceof TroubleError) return error;
  const e = ConnectError.from(error);
  if (e.cause instanceof TroubleError) return e.cause; // thrown while a call was made again
  const details = e.details.flatMap((d) => ('type' in d && 'value' in d ? [{ type: d.type, value: d.value }] : []));
  const info = details.find((d) => d.type === 'google.rpc.ErrorInfo');
  if (!info) return silence(e);
  const { reason, hint, serverMs, afterMs } = readErrorInfo(info.value);
  const violation = details.find((d) => d.type === 'google.rpc.BadRequest');
  return new TroubleError({
    words: e.rawMessage,
    reason: reason.replace(/^ERROR_REASON_/, ''),
    field: violation ? readBadRequest(violation.value) : '',
    hint,
    serverMs,
    afterMs,
    noSignal: [Code.Unavailable, Code.ResourceExhausted, Code.DeadlineExceeded].includes(e.code),
  }, e);
}

function silence(e: ConnectError): TroubleError {
  if (e.code === Code.DeadlineExceeded || e.code === Code.Canceled) {
    return new TroubleError({ words: "the co-op's server did not answer in time", reason: 'NO_ANSWER', hint: 'it is tried again', noSignal: true }, e);
  }
  const foreign = /content.type|unexpected|invalid|missing|premature/i.test(e.rawMessage);
  if (foreign) {
    return new TroubleError({
      words: "something else answered in the co-op server's place", reason: 'FOREIGN_ANSWER',
      hint: 'a network may want a sign-in first; it is tried again', noSignal: true,
    }, e);
  }
  return new TroubleError({ words: "no word from the co-op's server", reason: 'NO_SIGNAL', hint: 'it is tried again when there is a network', noSignal: true }, e);
}

// google.rpc.ErrorInfo: reason = 1, metadata = 3 with the hint under "hint", the
// server's clock under "server_ms", and when to try again under "retry_after_ms".
function readErrorInfo(bytes: Uint8Array): { reason: string; hint: string; serverMs: number; afterMs: number } {
  const info = { reason: '', hint: '', serverMs: 0, afterMs: 0 };
  eachField(bytes, (number, value) => {
    if (number === 1) info.reason = textOf(value);
    if (number !== 3) return;
    const pair = { key: '', value: '' };
    eachField(value, (n, v) => (pair[n === 1 ? 'key' : 'value'] = textOf(v)));
    if (pair.key === 'hint') info.hint = pair.value;
    if (pair.key === 'server_ms') info.serverMs = Number(pair.value);
    if (pair.key === 'retry_after_ms') info.afterMs = Number(pair.value) || 0;
  });
  return info;
}

// google.rpc.BadRequest: field_violations = 1, each with field = 1.
function readBadRequest(bytes: Uint8Array): string {
  let field = '';
  eachField(bytes, (_, violation) => eachField(violation, (number, value) => {
    if (number === 1 && field === '') field = textOf(value);
  }));
  return field;
}

function eachField(bytes: Uint8Array, heed: (number: number, value: Uint8Array) => void): void {
  const reader = new BinaryReader(bytes);
  while (reader.pos < reader.len) {
    const [number, type] = reader.tag();
    if (type === WireType.LengthDelimited) heed(number, reader.bytes());
    else reader.skip(type, number);
  }
}

const decoder = new TextDecoder();
const textOf = (bytes: Uint8Array) => decoder.decode(bytes);

import { fromBinary, toBinary } from '@bufbuild/protobuf';

import { OperationSchema, type Operation } from '../gen/freshet/v1/change_pb';

/** An id of an install: all of them begin alike. */
const id = /[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-[0-9a-f]{4}-[0-9a-f]{12}/g;

/** A text with ids exchanged. */
export const exchangedIn = (text: string, ids: ReadonlyMap<string, string>): string => text.replace(id, (found) => ids.get(found) ?? found);

/** A copy of an operation with ids exchanged. They are texts of one length: it is done in the encoded bytes, in fields of a later release too. */
export function exchanged(op: Operation, ids: ReadonlyMap<string, string>): Operation {
  const text = Array.from(toBinary(OperationSchema, op), (byte) => String.fromCharCode(byte)).join('');
  return fromBinary(OperationSchema, Uint8Array.from(exchangedIn(text, ids), (c) => c.charCodeAt(0)));
}

// What a code says: a place of ours, or an invitation.

export type Meaning =
  | { place: string }
  /** Address: origin of the cooperative's server. */
  | { code: string; address: string };

/** What a tag at a place holds: an address that any phone's camera opens too. */
export const tagOf = (origin: string, placeId: string): string => `${origin}/#/note/${placeId}`;

/** What an invitation's picture holds. */
export const invitationOf = (origin: string, code: string): string => `${origin}/#/join/${encodeURIComponent(code)}`;

/** Reads the text of a code; undefined where it is not one of ours. */
export function meaningOf(text: string): Meaning | undefined {
  let url: URL;
  try {
    url = new URL(text);
  } catch {
    return undefined;
  }
  const [, page, rest = ''] = /^#\/(note|place|join)\/([^/]{1,80})$/.exec(url.hash) ?? [];
  if (!page || !/^https?:$/.test(url.protocol)) return undefined;
  if (page === 'join') return { code: decodeURIComponent(rest), address: url.origin };
  return /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/.test(rest) ? { place: rest } : undefined;
}

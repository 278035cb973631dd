// What a query read and what a change touched, by name, so that a query runs
// again only where it could answer otherwise.

/** "record:vessel", "event:reading:SITE", "status". */
export type Topic = string;

export const recordTopic = (kind: string): Topic => 'record:' + kind;
export const eventTopic = (kind: string, siteId: string): Topic => `event:${kind}:${siteId}`;

/** Stands for everything: the copy of a scope was made anew. */
export const everything: Topic = '*';

/** Tells whether a change of topics could alter what was read; "event:reading:" stands for all sites. */
export function concerns(read: ReadonlySet<Topic>, touched: ReadonlySet<Topic>): boolean {
  if (touched.has(everything)) return true;
  for (const topic of touched) {
    if (read.has(topic)) return true;
    if (topic.startsWith('event:') && read.has(topic.slice(0, topic.lastIndexOf(':') + 1))) return true;
  }
  return false;
}

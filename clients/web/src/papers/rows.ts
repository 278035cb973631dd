// Readings, feedings and harvests of a year as rows of a table, one line each.
import { day, placeOf, type Book } from '../book/book';
import { textOf } from '../device/digits';
import type { View } from '../device/view';
import type { Words } from '../words/words';

type Row = (string | number)[];

/** The head of the table first. Times are UTC; readings are as they were typed. */
export async function recordsAsRows(view: View, book: Book, t: Words): Promise<Row[]> {
  const want = { siteId: book.site.id, from: book.now - 366 * day };
  const [readings, feedings, harvests] = await Promise.all([view.events('reading', want), view.events('feeding', want), view.events('bedHarvest', want)]);
  const place = (id: string): string => placeOf(book, id)?.name ?? '';
  const time = (at: number): string => new Date(at).toISOString();
  const crop = (id: string): string => book.plantings.find((p) => p.id === id)?.crop ?? '';
  return [
    ['time', 'kind', 'what', 'where', 'value', 'unit'],
    ...readings.map((e): Row => [time(e.at), 'reading', t.quantity[e.body.quantity], place(e.body.placeId), ['', '<', '>'][e.body.censoring] + textOf(e.body), `${t.unit[e.body.unit]} ${t.basis[e.body.basis]}`.trim()]),
    ...feedings.map((e): Row => [time(e.at), 'feeding', '', place(e.body.vesselId), e.body.massG, 'g']),
    ...harvests.map((e): Row => [time(e.at), 'bed_harvest', crop(e.body.plantingId), '', e.body.massG, 'g']),
  ];
}

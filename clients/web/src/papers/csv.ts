// Comma-separated values as RFC 4180 has them.

/** Rows to text. A cell that a spreadsheet would take for a formula gets a quote mark before it. */
export function csv(rows: readonly (readonly (string | number)[])[]): string {
  return rows.map((row) => row.map(cell).join(',')).join('\r\n') + '\r\n';
}

function cell(value: string | number): string {
  if (typeof value === 'number') return String(value);
  const safe = /^[=+@\t\r]|^-(?!\d)/.test(value) ? "'" + value : value;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

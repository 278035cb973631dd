/** Does something once what was read is drawn. */
export function afterPaint(work: () => void): void {
  requestAnimationFrame(() => setTimeout(work));
}

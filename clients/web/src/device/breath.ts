const { scheduler } = globalThis as { scheduler?: { postTask?(work: () => void, how: { priority: 'background' }): Promise<void> } };

/** Lets the page draw, heed a thumb and note an entry before long work goes on: whatever else waits comes first. */
export const breath = (): Promise<void> => scheduler?.postTask?.(() => undefined, { priority: 'background' }) ?? new Promise((done) => setTimeout(done));

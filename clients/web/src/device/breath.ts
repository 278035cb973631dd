const { scheduler } = globalThis as { scheduler?: { yield?(): Promise<void> } };

/** Lets the page draw and heed a thumb before long work goes on. */
export const breath = (): Promise<void> => scheduler?.yield?.() ?? new Promise((done) => setTimeout(done));

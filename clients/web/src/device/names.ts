// The notebooks on a phone, and what their databases are called.

/** The person's own. */
export const own = 'own';

/** The one that is filled with invented records. */
export const invented = 'invented';

export const databaseOf = (notebook: string): string => 'freshet-' + notebook;

// English for the app itself, as it is kept on the phone.
export const offline = {
  newer: { there: 'A newer Freshet is on this phone.', open: 'Open it' },
};

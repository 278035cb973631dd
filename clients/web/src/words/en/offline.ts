// English for the app itself, as it is kept on the phone.
export const offline = {
  newer: { there: 'A newer Freshet is on this phone.', open: 'Open it' },
  shut: {
    what: 'This browser keeps nothing for this app, so nothing can be noted here.',
    todo: 'It may be set to refuse what sites keep, be a private window, or have no room left. Open the app in a usual window, allow it to keep its data, or free some room.',
    again: 'Try again',
  },
};

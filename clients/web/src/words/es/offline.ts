// Spanish for the app itself, as it is kept on the phone.
export const offline = {
  newer: { there: 'Hay un Freshet más nuevo en este teléfono.', open: 'Abrirlo' },
};

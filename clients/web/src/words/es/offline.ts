// Spanish for the app itself, as it is kept on the phone.
export const offline = {
  newer: { there: 'Hay un Freshet más nuevo en este teléfono.', open: 'Abrirlo' },
  shut: {
    what: 'Este navegador no guarda nada para esta aplicación, así que aquí no se puede anotar nada.',
    todo: 'Puede que rechace lo que guardan los sitios, que sea una ventana privada o que no quede espacio. Abre la aplicación en una ventana normal, deja que guarde sus datos o libera espacio.',
    again: 'Probar otra vez',
  },
};

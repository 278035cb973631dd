// Words of the cover: they are there before all others.
import type { cover as english } from '../en/cover';

export const cover: typeof english = {
  lead: 'Un cuaderno para un circuito de agua con peces y plantas. Funciona sin señal y calcula lo que se sigue de lo que escribes.',
  begin: 'Dibujar mi circuito',
  setting: 'Idioma y unidades',
  invited: 'Me dieron un código',
  lookWords: 'O hojea antes uno inventado. Se queda en este teléfono.',
  look: 'Echar un vistazo',
  notOpened: 'El cuaderno no se pudo traer ahora. Inténtalo donde haya señal.',
};

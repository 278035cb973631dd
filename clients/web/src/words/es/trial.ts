// Español de los ensayos: una pregunta hecha a las camas.
import type { Words } from '../words';
import type { Say } from '../say';

export const trial = (say: Say): Pick<Words, 'trial'> => ({
  trial: {
    title: 'Ensayos', none: 'Ese ensayo no está en este cuaderno.',
    empty: 'Aún no se ha hecho ninguna pregunta a las camas. Dos maneras de hacer lo mismo, cada una en tres camas o más, y a suertes qué cama recibe cuál: así se distingue el azar de la manera. “freshet trial plan”, en un ordenador, echa las suertes y dice cuánto pueden decir tantas camas.',
    decidedMore: (other, first, by, near, far, sure) => `Decidido: “${other}” dio ${by} más que “${first}”, entre ${near} y ${far}, ${sure} veces de 100.`,
    decidedLess: (other, first, by, near, far, sure) => `Decidido: “${other}” dio ${by} menos que “${first}”, entre ${near} y ${far}, ${sure} veces de 100.`,
    openMore: (other, first, by, low, high) => `Sin decidir: hasta ahora “${other}” dio ${by} más que “${first}”, pero puede ser cualquier cosa entre ${low} menos y ${high} más.`,
    openLess: (other, first, by, low, high) => `Sin decidir: hasta ahora “${other}” dio ${by} menos que “${first}”, pero puede ser cualquier cosa entre ${low} menos y ${high} más.`,
    tooFew: (other, first) => `“${other}” frente a “${first}”: se han recogido muy pocas plantaciones para saberlo. Hacen falta dos de cada una.`,
    wanted: (percent, n) => `Para notar una diferencia del ${percent} en 8 de 10 ensayos así harían falta unas ${say.count(n, { one: '# plantación', other: '# plantaciones' })} de cada una.`,
    over: (on) => `Terminó el ${on}. Se dice lo que el azar haría una vez en 20 ensayos así.`,
    runs: 'Sigue en marcha. Hasta su último día solo se dice una diferencia que el azar haría una vez en 1000 ensayos así: por eso se puede mirar cuantas veces se quiera.',
    compared: 'Qué se compara', plantings: (n, all) => `${say.places(n, 0)} de ${say.count(all, { one: '# plantación recogida', other: '# plantaciones recogidas' })}`, nothing: 'nada aún',
    measures: { 0: '', 1: 'Se mide todo lo recogido de cada plantación, por su suelo.', 2: 'Se miden las piezas recogidas de cada planta.', 3: 'Se miden los días desde el comienzo hasta la primera recogida.' },
    stops: (rule) => `Termina: ${rule}.`, pieces: (n) => `${n} por planta`, days: (n) => `${n} días`,
    layout: 'Dónde crece', noPlots: 'Ninguna de sus plantaciones está en este cuaderno.', looks: 'Miradas hasta ahora', looksLead: 'El primero de cada mes, y ahora. Un trazo que no cruza la línea rota decide.',
    against: (other, first) => `${other} frente a ${first}`, last: 'la última', less: 'menos', same: 'sin diferencia', more: 'más', how: 'Cómo se calcula',
    method: 'Dentro de las camas cuando cada cama tiene ambas (Yates 1933), si no según Welch 1947, con la cifra de cada plantación. Antes del último día 1 en 1000 (Haybittle 1971, Peto et al. 1976), luego 1 en 20; varias maneras se lo reparten (Dunn 1961).',
  },
});

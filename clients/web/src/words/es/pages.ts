// Spanish for the pages but the first.
import { cover } from './cover';
import type { Say } from '../say';

export const pages = (say: Say) => ({
  page: { stream: 'El agua', why: 'Por qué', ahead: 'Lo que viene', larder: 'Despensa', budget: 'Nitrógeno', build: 'Lo escrito del lugar', diary: 'Diario', together: 'Juntos', papers: 'Papeles', phone: 'Este teléfono' },

  contents: {
    tasks: (n: number) => say.count(n, { one: '# cosa por hacer en esta vuelta', other: '# cosas por hacer en esta vuelta' }),
    calm: 'nada te necesita',
    why: 'qué dice el agua',
    ahead: 'peces, camas y huecos',
    larder: 'qué se hizo con la cosecha',
    diary: 'lo anotado, día a día',
    build: 'recipientes, camas, peces, pienso',
    together: 'nuestro lugar entre los demás',
    papers: 'hoja del día, calendario, tabla',
    phone: 'idioma, unidades, luz',
    sites: 'Lugares',
  },

  phone: {
    nothingWaits: 'Nada espera en este teléfono',
    oldest: (ago: string) => `La más antigua se anotó ${ago}.`,
    heard: (ago: string) => `Última noticia de la cooperativa: ${ago}.`,
    never: 'Este teléfono aún no ha hablado con ninguna cooperativa. Lo que anotes se guarda aquí.',
    invented: 'Este es el cuaderno inventado, para mirar. Nada de él se envía a nadie.',
    ownNotebook: 'Ir a mi propio cuaderno',
    language: 'Idioma', units: 'Unidades', light: 'Luz',
    system: { 0: '', 1: 'métricas', 2: 'de Estados Unidos' } as Record<number, string>,
    lights: { auto: 'según la hora', day: 'día', night: 'ronda de noche' },
  },

  first: {
    ...cover,
    yours: 'Tu circuito',
    place: '¿Cómo llamas al lugar?',
    start: '¿Dónde viven los peces?',
    next: '¿Qué encuentra el agua después?',
    holds: (unit: string) => `Agua que contiene, ${unit}`,
    add: 'Dibujarlo',
    closes: 'El agua vuelve: listo',
  },

  why: {
    figure: { ammonia: 'Amoníaco', oxygen: 'Oxígeno', nitrite: 'Nitrito', temperature: 'Temperatura', ph: 'pH', carbonDioxide: 'Dióxido de carbono', nitrate: 'Nitrato' },
    restsOn: 'En qué se apoya',
    source: 'Quién lo dice',
    setting: { ammoniaLimit: 'máximo deseado', oxygenLimit: 'mínimo deseado', elevation: 'altura sobre el mar', low: 'mínimo deseado', high: 'máximo deseado' },
    from: { loop: 'fijado para este circuito', site: 'el lugar', species: '', published: '' },
    careful: 'Mide otra vez antes de actuar por un número, cambia una sola cosa a la vez y observa a los animales.',
    usual: (low: string, high: string) => `Lo habitual aquí: de ${low} a ${high}.`,
    week: 'Desde hace una semana',
    went: (before: string, after: string) => `Pasó de ${before} a ${after}.`,
    split: 'Cada parte es lo que trajo esa lectura por sí sola, en todos los órdenes en que pudieron cambiar (Shapley 1953). Las partes suman el cambio.',
    cameAndWent: (what: string, n: number) => `Qué trajo y qué se llevó ${what}, ${say.count(n, { one: 'en # día', other: 'en # días' })}`,
    flow: { made: 'hecho del pienso', ofAmmonia: 'hecho del amoníaco', base: 'base puesta', nitrified: 'gastada por bacterias', added: 'agua añadida', letGo: 'agua soltada', rest: 'el resto' },
    rest: {
      ammonia: 'Calculado con el pienso anotado. El resto es lo que tomaron filtro y plantas, y los errores de las pruebas.',
      nitrite: 'Calculado con el pienso anotado. El resto es lo que pasó a nitrato, y los errores de las pruebas.',
      nitrate: 'Calculado con el pienso anotado. El resto es lo que tomaron las plantas y lo que fue al aire, y los errores de las pruebas.',
      alkalinity: 'Calculado con la base que se puso y con el pienso: las bacterias que hacen nitrato de su amoníaco gastan 7,14 g de alcalinidad por cada gramo de nitrógeno. El resto es lo que devolvieron plantas y piedra, y los errores de las pruebas.',
    },
    beforeIt: 'Qué pasó antes',
    carries: 'Cuánto soporta este circuito',
    binds: (limit: string, feed: string, fish: string) => `Lo que más aprieta: ${limit}; ${feed} de pienso al día, unos ${fish} de peces.`,
    limit: { oxygen: 'oxígeno', nitrification: 'el filtro', carbonate: 'alcalinidad', plants: 'plantas', space: 'espacio' },
    carryCaution: 'Los peces crecen: cuenta con el día en que se sacan y con la peor hora de la bomba.',
    days: (n: number) => say.count(n, { one: '# día', other: '# días' }),
    all: 'todo',
    chart: (what: string, n: number) => `${what} en el tiempo, ${say.count(n, { one: '# lectura', other: '# lecturas' })}. Las flechas lo mueven; los números están en la tabla de abajo.`,
    numbers: 'Los últimos números',
  },

  loopSheet: {
    lead: (water: string, flow: string) => `Aquí dan vueltas ${water} de agua${flow ? `, a ${flow}` : ''}. No se tira nada de lo que otro ser pueda vivir.`,
    fish: (n: string, mass: string, feed: string) => `Aquí viven ${n} peces, unos ${mass} en total. Comen ${feed} de pienso al día. Lo que respiran y excretan vuelve el agua venenosa para ellos: amoníaco.`,
    fishNone: 'Aquí viven los peces. Lo que respiran y excretan vuelve el agua venenosa para ellos: amoníaco.',
    filter: 'En cada piedra viven bacterias. Necesitan aire y convierten el amoníaco primero en nitrito y luego en nitrato, que gusta a las plantas.',
    filterOf: (area: string) => `Las bacterias viven sobre ${area} de piedra. Necesitan aire y convierten el amoníaco primero en nitrito y luego en nitrato, que gusta a las plantas.`,
    beds: (n: string, area: string) => `En ${n} camas, ${area} en total, las plantas toman el nitrato y crecen. Eso limpia el agua.`,
    does: { 0: '', 1: '', 2: 'El agua se calma y lo sólido se hunde. Se saca y alimenta la tierra.', 3: '', 4: 'Aquí está la bomba. Es lo único que sube el agua; si se para, los peces tienen minutos.', 5: '', 6: 'Aquí se junta el agua limpia antes de volver a los peces.' } as Record<number, string>,
    end: 'Así los peces alimentan a las plantas, y las plantas mantienen el agua buena para los peces.',
  },

  papers: {
    printIt: 'Imprimir', loop: 'Tu circuito en una página, para enseñar', tags: 'Etiquetas para tanques y camas', sheet: 'Hoja del día',
    print: 'Imprimir la hoja del día', calendar: 'Archivo de calendario de siembras y cosechas', table: 'Los registros de un año en una tabla (CSV)', hour: 'hora',
    caution: 'Electricidad junto al agua: interruptor diferencial y un electricista con licencia. Las etiquetas y la ley local mandan sobre todo número de aquí.',
  },
});

// Spanish for the walk along the water, and what the water says.
import type { Judged } from '../../reckon/water';
import type { Say } from '../say';

export const water = (say: Say) => ({
  stream: {
    title: 'El agua',
    walk: 'Esta vuelta',
    nothing: 'Nada te necesita en esta vuelta.',
    more: (n: number) => say.count(n, { one: 'y # más', other: 'y # más' }),
    holds: (litres: number) => say.amount('volume', litres),
    bank: 'En la orilla',
    wayBack: (name: string) => `El agua vuelve a ${name}.`,
    noteAt: (name: string) => `Anotar algo en ${name}`,
    why: '¿Por qué?',
    stroke: 'Cada trazo en el agua son diez peces.',
    empty: 'No hay nada plantado.',
    since: (when: string) => `desde el ${when}`,
    fish: (name: string, n: number, grams: string) => (grams ? `${name}: ${say.places(n, 0)}, de unos ${grams} cada uno` : `${name}: ${say.places(n, 0)}`),
    negative: (name: string) => `De ${name} salieron más de los que entraron: falta una entrada o un conteo.`,
    stands: (crop: string) => crop,
    sown: (crop: string, when: string) => `${crop}, sembrado el ${when}`,
    bears: (from: string, until: string) => `da del ${from} al ${until}`,
    bearsNow: (until: string) => `da ahora, hasta el ${until} más o menos`,
    bearsFrom: (early: string, late: string) => `da desde el ${early} – ${late}`,
    past: (since: string) => `ya no da desde el ${since}`,
    old: (n: number) => say.count(n, { one: '# lectura más antigua', other: '# lecturas más antiguas' }),
  },

  task: {
    feed: (name: string, amount: string) => `${name}: ${amount} de pienso hoy.`,
    feedCut: (name: string, amount: string, full: string, why: string) => `${name}: hoy solo ${amount} en vez de ${full}, porque ${why}.`,
    feedHeld: (name: string, amount: string, carries: string) => `${name}: hoy no más de ${amount}; el circuito soporta ${carries} en total.`,
    noFeed: (why: string) => `Hoy no des de comer, porque ${why}.`,
    cut: { ammonia: 'el amoníaco no es seguro', ammoniaNear: 'el amoníaco está cerca de su límite', oxygen: 'el oxígeno está demasiado bajo', nitrite: 'el nitrito está demasiado alto' },
    gave: (amount: string) => `Di ${amount}`,
    other: 'Otra cosa',
    appetite: '¿Cómo comen?',
    test: (what: string, ago: string) => `Mide ${what}; la última vez, ${ago}.`,
    begin: 'Empezar',
    again: 'Medir otra vez',
    bears: (crop: string) => `${crop}: listo para cosechar.`,
    pick: 'Cosechar',
    past: (crop: string) => `${crop}: ya no da.`,
    pulled: 'Arrancado',
    sow: (crop: string, area: string) => `Siembra ${area} de ${crop}.`,
    sown: 'Sembrado',
    weigh: (name: string, ago: string) => `Pesa unos veinte de ${name}; la última vez, ${ago}.`,
    weighNever: (name: string) => `Pesa unos veinte de ${name}: nunca se hizo.`,
    weighed: 'Pesar',
    lasts: (what: string, since: string) => `${what} desde ${since}.`,
    over: 'Ya pasó',
    stale: (what: string, ago: string) => `${what} se midió por última vez ${ago}.`,
    done: 'hecho',
  },

  water: {
    ammonia: (j: Judged) => {
      const now = `${say.number(j.value ?? NaN, 2)} mg/L son de la forma venenosa, y ${say.number(j.facts.limit ?? NaN, 2)} es el límite.`;
      if (j.standing === 'act') return `El amoníaco no es seguro. ${now} Lo sería por debajo de ${say.number(j.facts.safeBelow ?? NaN, 2)} mg/L en total.`;
      const turns = j.facts.turnsAtPh === undefined ? '' : ` Dejaría de ser seguro si el pH pasara de ${say.places(j.facts.turnsAtPh, 1)}.`;
      return j.standing === 'watch' ? `El amoníaco está cerca de su límite. ${now}${turns}` : `El amoníaco es seguro.${turns}`;
    },
    oxygen: (j: Judged) => {
      const is = `El oxígeno es de ${say.number(j.facts.measured ?? NaN, 2)} mg/L, ${say.percent((j.value ?? NaN) / 100)} de lo que esta agua puede retener.`;
      const least = say.number(j.facts.limit ?? NaN, 2);
      if (j.standing === 'act') return `${is} Los peces quieren al menos ${least}: airea ya y no des de comer.`;
      return j.standing === 'watch' ? `${is} Está cerca de los ${least} que los peces quieren como mínimo.` : is;
    },
    nitrite: (j: Judged) => {
      const is = `El nitrito es de ${say.number(j.value ?? NaN, 2)} mg/L como N`;
      const chloride = j.facts.chlorideRatio === undefined ? '' : ` El cloruro es ${say.number(j.facts.chlorideRatio, 2)} veces más.`;
      if (j.standing === 'act') return `${is}: demasiado. No des de comer, añade agua limpia y mide mañana otra vez.${chloride}`;
      return (j.standing === 'watch' ? `${is}, por encima del ${say.number(j.facts.high ?? NaN, 2)} deseado.` : `${is}: inofensivo.`) + chloride;
    },
    temperature: (j: Judged, species: string) => {
      const is = `El agua está a ${say.amount('temperature', j.value ?? NaN)}.`;
      if (j.standing === 'act') return `${is} Eso está cerca de lo que mata (${species}).`;
      if (j.facts.low !== undefined) return `${is} Por debajo de ${say.amount('temperature', j.facts.low)} no come (${species}): no des nada.`;
      if (j.facts.high !== undefined) return `${is} Por encima de ${say.amount('temperature', j.facts.high)} no come (${species}): no des nada.`;
      return is;
    },
    ph: (j: Judged) => {
      const is = `El pH es ${say.places(j.value ?? NaN, 1)}.`;
      const { low = NaN, high = NaN } = j.facts;
      if (j.standing !== 'watch') return is;
      if ((j.value ?? NaN) < low) return `${is} Por debajo de ${say.places(low, 1)} las bacterias van lentas: sube la alcalinidad poco a poco, y mide antes el amoníaco, porque subir el pH lo vuelve venenoso.`;
      return `${is} Por encima de ${say.places(high, 1)} las plantas toman mal el hierro. No lo bajes a la fuerza; baja con el trabajo de las bacterias.`;
    },
    carbonDioxide: (j: Judged) => `El dióxido de carbono ronda ${say.number(j.value ?? NaN, 2)} mg/L; ${j.standing === 'watch' ? 'airea más, lo común es buscar menos de 20' : 'lo común es buscar menos de 20'}.`,
    nitrate: (j: Judged) => {
      const is = `El nitrato es de ${say.number(j.value ?? NaN, 2)} mg/L como N`;
      if (j.standing !== 'watch') return `${is}.`;
      return (j.value ?? NaN) < (j.facts.low ?? NaN) ? `${is}: poco para las plantas.` : `${is}, más de lo deseado: planta más o da menos de comer.`;
    },
    /** In one breath, for the list of a walk. */
    short: {
      ammonia: (j: Judged): string => (j.standing === 'act' ? 'El amoníaco no es seguro.' : 'El amoníaco está cerca de su límite.'),
      oxygen: (j: Judged): string => (j.standing === 'act' ? 'El oxígeno está demasiado bajo: airea ya.' : 'El oxígeno está cerca de su límite.'),
      nitrite: (j: Judged): string => (j.standing === 'act' ? 'El nitrito está demasiado alto: añade agua limpia.' : 'El nitrito está por encima de lo deseado.'),
      temperature: (j: Judged): string => (j.standing === 'act' ? 'El agua está cerca de lo que mata a los peces.' : 'El agua está fuera de lo que los peces comen.'),
      ph: (j: Judged): string => ((j.value ?? 7) > (j.facts.high ?? 7) ? 'El pH está alto.' : 'El pH está bajo.'),
      carbonDioxide: (_: Judged): string => 'El dióxido de carbono está alto: airea más.',
      nitrate: (j: Judged): string => ((j.value ?? 0) > (j.facts.high ?? 0) ? 'El nitrato está alto: planta más o da menos de comer.' : 'El nitrato está bajo: poco para las plantas.'),
    },
    unknown: {
      ammonia: 'No se puede decir si el amoníaco es seguro.', oxygen: 'Aquí no se mide el oxígeno.', nitrite: 'Aquí no se mide el nitrito.', temperature: 'Aquí no se mide la temperatura del agua.',
      ph: 'Aquí no se mide el pH.', carbonDioxide: 'El dióxido de carbono no se puede decir.', nitrate: 'Aquí no se mide el nitrato.',
    },
    missing: (what: string) => `${what}: nunca se midió aquí.`,
  },
});
